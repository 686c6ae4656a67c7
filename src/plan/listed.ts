/** "A", "A and B", "A, B and C"; of more than `most` the rest is counted: "A, B, C and 2 more". */
export function listed(names: readonly string[], most = Number.POSITIVE_INFINITY): string {
  const more = names.length - most;
  const shown = more > 0 ? [...names.slice(0, most), `${more} more`] : names;
  return shown.length > 1 ? `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}` : (shown[0] ?? '');
}
