import { DIODES, type DiodeFacts, type DiodeType } from '../../trade/semiconductors.ts';
import { definePart } from '../definePart.ts';
import { diodeElement } from '../diodes.ts';
import { choice } from '../settings.ts';
import { diodeGlyph, inlineBody, schottkyGlyph } from '../symbols.ts';
import type { Settings } from '../types.ts';
import { plain } from '../values.ts';

const TYPES = Object.entries(DIODES).map(([value, d]) => [value, d.title] as const);

/** A single diode: across a coil, against reversed sensing, or in series with a small feed. */
export const diode = definePart({
  kind: 'diode',
  title: 'Diode',
  group: 'Protect',
  about: 'Conducts one way only: across a relay coil it swallows the spike, across an optocoupler it guards against reversed supply.',
  words: ['rectifier', 'schottky', '1n4148', '1n4007', '1n5819', 'flyback', 'freewheel'],
  letter: 'V',
  settings: [choice('type', 'Type', TYPES, 'data sheets of the types; the 1N4148 is the usual small one')],
  terminals: () => [
    { id: 'A', label: 'A', title: 'Anode', side: 'left', form: 'lead', role: 'any', flow: 'in', required: true },
    { id: 'K', label: 'K', title: 'Cathode, the ring on the body', side: 'right', form: 'lead', role: 'any', flow: 'out', required: true },
  ],
  symbol: (s) => inlineBody('A', 'K', isSchottky(s) ? schottkyGlyph(30, 10) : diodeGlyph(30, 10), 8),
  behave: (s, { ambientC }) => ({ elements: [diodeElement('d', 'A', 'K', facts(s), ambientC)] }),
  facts: () => ({ links: [{ a: 'A', b: 'K', type: 'diode' }] }),
  subtitle: (s) => facts(s).title,
  spec: (s) => `Diode ${facts(s).title}, ${plain(facts(s).averageA)} A, ${plain(facts(s).reverseV)} V reverse`,
  meterPoints: () => [{ plus: 'A', minus: 'K', what: 'Drop while it conducts' }],
});

function facts(s: Settings): DiodeFacts {
  return DIODES[s.str('type') as DiodeType] ?? DIODES['1n4148'];
}

function isSchottky(s: Settings): boolean {
  return s.str('type') === '1n5819' || s.str('type').startsWith('schottky');
}
