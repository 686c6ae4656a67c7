import { COLOURS } from '../trade/colours.ts';
import type { ColourCode } from '../trade/words.ts';

/** A short piece of insulation in its colour and stripe; the words stand beside it. */
export function Swatch({ colour, stripe }: { readonly colour?: ColourCode; readonly stripe?: ColourCode }) {
  if (!colour) return null;
  return (
    <svg className="swatch" width="28" height="12" viewBox="0 0 28 12" aria-hidden="true">
      <rect x="0.5" y="2.5" width="27" height="7" rx="3.5" fill={COLOURS[colour].hex} stroke="var(--wire-edge)" />
      {stripe ? <rect x="1" y="5" width="26" height="2.2" fill={COLOURS[stripe].hex} /> : null}
    </svg>
  );
}
