import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

/** Supply pins of the 40-pin header (board makers' pin tables): both 5 V pins, and three of the 0 V pins. */
const FIVE_V = ['2', '4'];
const ZERO_V = ['6', '14', '20'];

export const computer: GuideStep = {
  id: 'computer',
  stage: 'draw',
  title: 'The computer, fed with 5 V',
  todo: 'Place the computer next to the converter, and feed it by short thick wires: two for 5 V, three for 0 V.',
  why: 'Several amperes through one pin warm it, and every tenth of a volt lost on the way is missing when the computer works hardest.',
  byHand: 'Shelf, Compute: “Computer”. Wires: converter “out” to pins 2 and 4, converter “0 V” to pins 6, 14 and 20.',
  rules: ['five-volt-drop', 'five-volt-half-alive', 'pin-over-voltage', 'vehicle-voltage-at-pin', 'two-five-volt-sources', 'feed-drop'],
  checks({ facts }) {
    const { computer: part } = rolesOf(facts);
    const up = (state: 'RUN_CHARGING' | 'RETAIN' | 'OFF_ASLEEP'): boolean => part !== undefined && facts.deviceOn(part.part.id, 'powered', state, 'typical');
    return [
      fact('A computer is on the plan.', part !== undefined, part),
      fact('It has power while the engine runs.', up('RUN_CHARGING'), part),
      fact('It keeps its power for a while after the key is off.', up('RETAIN'), part),
      fact('Parked, it has none.', part !== undefined && up('RUN_CHARGING') && !up('OFF_ASLEEP'), part),
    ];
  },
  offer({ plan, facts }) {
    const { computer: known, converter } = rolesOf(facts);
    if (!converter) return null;
    const kit = new Kit(plan, facts);
    const id = known?.part.id ?? kit.part({ kind: 'computer', zone: converter.part.zone }, [620, 330]);
    const to = (from: string, pins: readonly string[]): void => {
      const key = `${converter.part.id}.${from}`;
      if (
        known &&
        pins.some((p) => facts.netOf(`${id}.${p}`) !== -1 && facts.netOf(`${id}.${p}`) === facts.netOf(key) && facts.isWired(key)) &&
        facts.isWired(`${id}.${pins[0]}`)
      )
        return;
      // Short, as the two stand side by side.
      for (const pin of pins) kit.join(key, `${id}.${pin}`, { lengthM: 0.25 });
    };
    to('out', FIVE_V);
    to('0v', ZERO_V);
    return kit.offer('Add the computer and feed it');
  },
};
