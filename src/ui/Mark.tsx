/** Our sign: two wires woven past each other, one with a gap. */
export function Mark({ size = 24 }: { readonly size?: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 64 64" aria-hidden="true" fill="none" stroke="var(--accent)" strokeWidth="6" strokeLinecap="round">
      <path d="M8 20h20a10 10 0 0 1 10 10v4a10 10 0 0 0 10 10h8" />
      <path d="M8 44h14a10 10 0 0 0 5-1.5M56 20H48a10 10 0 0 0-5 1.5" />
      <circle cx="8" cy="20" r="4" fill="var(--accent)" />
      <circle cx="8" cy="44" r="4" fill="var(--accent)" />
    </svg>
  );
}
