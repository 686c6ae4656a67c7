/**
 * Estimated text widths without a screen: shares of the size for a humanist sans face, from memory of common
 * interface fonts, rounded up so that text rather has room to spare.
 */
const NARROW = new Set([..."iljtfr.,:;'|!()[] I-"]);
const WIDE = new Set([...'mwMWQOG@%&ΩµCDNHU→⌀']);

/** Width of one line of text in drawing units. */
export function textWidth(text: string, size: number, bold = false): number {
  let share = 0;
  for (const ch of text) share += NARROW.has(ch) ? 0.36 : WIDE.has(ch) ? 0.82 : ch >= '0' && ch <= '9' ? 0.63 : 0.59;
  return share * size * (bold ? 1.1 : 1);
}

/**
 * Breaks a line at spaces so that each piece fits.
 * @returns one or more lines; a single word longer than the width stays whole
 */
export function wrapText(text: string, size: number, width: number, bold = false): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size, bold) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  lines.push(line);
  return lines;
}
