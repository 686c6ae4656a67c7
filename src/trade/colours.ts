/** Wire colours. Letters: IEC 60757 (from memory). Screen colours are ours, chosen to stay apart on a light ground. */
import type { ColourCode } from './words.ts';

export const COLOURS: Record<ColourCode, { readonly name: string; readonly hex: string }> = {
  BK: { name: 'black', hex: '#26282b' },
  BN: { name: 'brown', hex: '#7a4a24' },
  RD: { name: 'red', hex: '#c8322d' },
  OG: { name: 'orange', hex: '#e07b25' },
  YE: { name: 'yellow', hex: '#d9b21f' },
  GN: { name: 'green', hex: '#3f8f3c' },
  BU: { name: 'blue', hex: '#2f6db5' },
  VT: { name: 'violet', hex: '#7d4fa3' },
  GY: { name: 'grey', hex: '#85888c' },
  WH: { name: 'white', hex: '#f2f1ec' },
  PK: { name: 'pink', hex: '#e08bab' },
  TQ: { name: 'turquoise', hex: '#2f9a97' },
};

/** Letters in the order of the standard's table, which is also the order in which two letters are joined. */
export const COLOUR_ORDER: readonly ColourCode[] = ['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK', 'TQ'];

/** `RD` or, with a stripe, `RD/BU`; written out: `red` or `red with blue stripe`. */
export function colourText(colour: ColourCode, stripe?: ColourCode): { letters: string; words: string } {
  const base = COLOURS[colour].name;
  return stripe === undefined ? { letters: colour, words: base } : { letters: `${colour}/${stripe}`, words: `${base} with ${COLOURS[stripe].name} stripe` };
}
