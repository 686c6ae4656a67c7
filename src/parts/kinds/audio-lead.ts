import { cableBody } from '../cable.ts';
import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import type { Settings } from '../types.ts';

/** Core and screen of thin screened audio lead, ohm per metre (AWG 28 core; from memory of cable sheets). */
const CORE_OHM_PER_M = 0.22;
const SCREEN_OHM_PER_M = 0.05;
/** Two plug contacts, ohm (common practice, no source). */
const PLUGS_OHM = 0.02;

/** A ready-made screened lead with a jack at each end. */
export const audioLead = definePart({
  kind: 'audio-lead',
  title: 'Audio lead',
  group: 'Sound and picture',
  about: 'A screened lead with a jack plug at each end. Its screen joins the 0 V of both ends.',
  words: ['aux', 'jack', 'cable', 'screened'],
  letter: 'W',
  settings: [amount('lengthM', 'Length', 'm', [0.1, 1.5, 20], 'common length on sale, no source', { stocked: [0.5, 1, 1.5, 3, 5] })],
  terminals: () => [
    { id: 'a', label: '', title: 'Plug at one end', side: 'left', form: 'jack', role: 'audio', required: true },
    { id: 'b', label: '', title: 'Plug at the other end', side: 'right', form: 'jack', role: 'audio', required: true },
  ],
  symbol: () => cableBody('a', 'b', true),
  behave: (s) => ({
    elements: [
      { kind: 'resistor', id: 'core', a: 'a', b: 'b', ohm: coreOhm(s) },
      { kind: 'resistor', id: 'screen', a: 'a~0', b: 'b~0', ohm: screenOhm(s) },
    ],
  }),
  facts: (s) => ({
    links: [
      { a: 'a', b: 'b', type: 'conductor', ohm: coreOhm(s) },
      { a: 'a~0', b: 'b~0', type: 'conductor', ohm: screenOhm(s) },
    ],
  }),
  subtitle: (s) => `${s.num('lengthM')} m screened`,
  spec: (s) => `Screened audio lead, ${s.num('lengthM')} m`,
});

function coreOhm(s: Settings): number {
  return s.num('lengthM') * CORE_OHM_PER_M + PLUGS_OHM;
}

function screenOhm(s: Settings): number {
  return s.num('lengthM') * SCREEN_OHM_PER_M + PLUGS_OHM;
}
