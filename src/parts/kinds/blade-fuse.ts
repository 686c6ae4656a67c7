import { BLADE_RATINGS_A, BREAKING_A, bladeColour, coldOhm } from '../../trade/fuses.ts';
import { definePart } from '../definePart.ts';
import { amount, choice } from '../settings.ts';
import { fuseFlag, fuseGlyph, inlineBody } from '../symbols.ts';
import { plain } from '../values.ts';

/** How far the resistance rises up to rated current: 1.3 to 1.5 times the cold one (a fuse maker's sheet, read in quotation). */
const HOT_FACTOR = 1.5;

/** Blade fuse to ISO 8820-3 in its holder. */
export const bladeFuse = definePart({
  kind: 'blade-fuse',
  title: 'Blade fuse',
  group: 'Protect',
  about: 'Opens when more flows than the wire behind it may carry. It protects the wire, not the part; so it sits at the start of the wire.',
  words: ['fuse', 'protection', 'blade', 'F'],
  letter: 'F',
  settings: [
    amount('ratingA', 'Rating', 'A', [1, 5, 40], 'chosen from load and wire: at most 75 % loaded, never above the wire (fuse makers’ guides, from memory)', {
      automatic: true,
      stocked: BLADE_RATINGS_A,
      help: 'A bigger fuse does not help: it leaves the wire unprotected.',
    }),
    choice(
      'voltClass',
      'Voltage class',
      [
        ['32', '32 V'],
        ['58', '58 V'],
        ['16', '16 V'],
        ['none', 'none printed for direct current'],
      ],
      'ISO 8820-3: 32 V or 58 V classes (abstract, read)',
      { help: '24 V vehicles want the 58 V class. Circuit breakers and fuses of other shapes have a class of their own printed on them.' },
    ),
    amount('breakA', 'Breaks at the most', 'A', [10, BREAKING_A, 50_000], 'ISO 8820-3: 1000 A (abstract, read)', {
      help: 'A fuse that must open more than this may burst and go on burning. Glass fuses break very little.',
      rare: true,
    }),
  ],
  terminals: () => [
    { id: '1', label: '', title: 'Side towards the source', side: 'left', form: 'blade', role: 'any', required: true },
    { id: '2', label: '', title: 'Side towards the load', side: 'right', form: 'blade', role: 'any', required: true },
  ],
  symbol: (s) => inlineBody('1', '2', [...fuseGlyph(30, 10), fuseFlag(30, 10, s.num('ratingA'))], 16),
  behave: (s) => ({ elements: [{ kind: 'resistor', id: 'fuse', a: '1', b: '2', ohm: coldOhm(s.num('ratingA')), tol: { ohm: [0.9, HOT_FACTOR] } }] }),
  facts: (s) => ({ links: [{ a: '1', b: '2', type: 'fuse', ratingA: s.num('ratingA'), ohm: coldOhm(s.num('ratingA')) }] }),
  subtitle: (s) => `${plain(s.num('ratingA'))} A`,
  spec: (s) =>
    `Blade fuse ${plain(s.num('ratingA'))} A (${bodyWords(s.num('ratingA'))}), ${s.str('voltClass') === 'none' ? 'a class printed for direct current' : `${s.str('voltClass')} V class`}, breaks ${plain(s.num('breakA'))} A, with sealed holder`,
  meterPoints: () => [{ plus: '1', minus: '2', what: 'Drop across the fuse under load' }],
});

/** "tan, light brown": inside brackets a colour has none of its own. */
function bodyWords(ratingA: number): string {
  return bladeColour(ratingA).name.replace(' (', ', ').replace(')', '');
}
