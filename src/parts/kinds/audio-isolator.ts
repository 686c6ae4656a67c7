import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import { moduleBox, transformerGlyph } from '../symbols.ts';

/** Two small transformers in an audio lead: sound passes, direct current does not. */
export const audioIsolator = definePart({
  kind: 'audio-isolator',
  title: 'Audio isolator',
  group: 'Sound and picture',
  about: 'Small transformers that pass the sound but not the ground: cures whine from the alternator in the radio.',
  words: ['ground loop', 'transformer', 'whine', 'hum', 'noise'],
  letter: 'T',
  settings: [
    amount('ohm', 'Impedance of each side', 'Ω', [50, 600, 20000], 'common line transformers are 600 ohm (common practice, no source)', {
      stocked: [600, 10000],
    }),
    amount('lowHz', 'Lowest frequency passed', 'Hz', [5, 40, 1000], 'common practice, no source: cheap ones lose the bass', { rare: true }),
  ],
  terminals: () => [
    { id: 'a', label: 'in', title: 'Side of the source', side: 'left', form: 'jack', role: 'audio', required: true },
    { id: 'b', label: 'out', title: 'Side of the radio', side: 'right', form: 'jack', role: 'audio', required: true },
  ],
  symbol: () => moduleBox({ left: ['a'], right: ['b'] }, 120, 80, transformerGlyph(60, 60)),
  behave: (s) => ({
    elements: [
      { kind: 'resistor', id: 'primary', a: 'a', b: 'a~0', ohm: s.num('ohm') },
      { kind: 'resistor', id: 'secondary', a: 'b', b: 'b~0', ohm: s.num('ohm') },
    ],
  }),
  facts: () => ({}),
  subtitle: (s) => `${s.num('ohm')} Ω, screens apart`,
  spec: (s) => `Transformer isolator for line audio, ${s.num('ohm')} Ω or more, from ${s.num('lowHz')} Hz`,
  meterPoints: () => [{ plus: 'a~0', minus: 'b~0', what: 'resistance between the two screens with one plug out: open' }],
});
