import type { Facts, PartView, Step } from '../../analysis/factsTypes.ts';
import { V33 } from '../../parts/computer/devices.ts';
import { HEADER } from '../../trade/header.ts';
import { RAIL3_OUT_A } from '../../trade/logic.ts';
import { amps, called, defineRule, part, verdicts, volts, wire, wireName } from '../defineRule.ts';
import { removeWire } from '../fixes.ts';
import { closableReach } from '../rails.ts';
import { along } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('three-volt-pin-misused', 'C15');
const PINS = HEADER.filter((p) => p.rail === '3V3').map((p) => `${p.pin}`);

export const threeVoltPinMisused = defineRule({
  id: 'three-volt-pin-misused',
  code: 'C15',
  level: 'hazard',
  title: '3.3 V pin fed from outside, or asked for too much',
  why: 'The 3.3 V at the header come out of the board’s own regulator, which also feeds the processor. It has little to spare, and whatever is pushed into it goes straight to the chips.',
  source: { text: 'Board maker’s add-on guide: never join a source to these pins (read); 0.3 A from practice', grade: 'data sheet' },
  needs: 'readings',
  always: true,
  explains: ['two-supplies-tied', 'pin-over-voltage'],
  check: (facts) => facts.ofKind('computer').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const id = String(finding.data?.wire ?? '');
    return facts.plan.wires[id] ? [removeWire(id, `Take ${wireName(facts, id)} away`)] : [];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  if (!PINS.some((p) => facts.isWired(`${view.part.id}.${p}`))) return [];
  const subject = part(view.part.id);
  const fed = feeder(facts, view);
  if (fed) {
    const wires = along(facts, fed.steps).wires;
    const last = wires[wires.length - 1];
    return [
      found({
        level: 'hazard',
        subject,
        related: [part(fed.view.part.id), ...wires.map((w) => wire(w.id))],
        what: `${called(fed.view)} (${volts(fed.nominalV)}) is joined to the 3.3 V pin of ${called(view)}, which is an output.`,
        todo: 'Take the join away; feed what needs 3.3 V from one of the two, and keep the other off.',
        figures: [{ label: 'joined to it', value: fed.nominalV, unit: 'V' }],
        ...(last ? { data: { wire: last.id } } : {}),
      }),
    ];
  }
  const drawn = drawnA(facts, view);
  if (drawn === null) return [unknown(subject, 'what its 3.3 V pins give could not be worked out')];
  if (drawn <= RAIL3_OUT_A) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      what: `The 3.3 V pins of ${called(view)} must give ${amps(drawn)}; more than ${amps(RAIL3_OUT_A)} starve its own chips.`,
      todo: 'Feed the hungriest part from a 3.3 V regulator of its own.',
      figures: [
        { label: 'drawn from 3.3 V', value: drawn, unit: 'A' },
        { label: 'one may take', value: RAIL3_OUT_A, unit: 'A' },
      ],
    }),
  ];
}

interface Feeder {
  readonly view: PartView;
  readonly nominalV: number;
  readonly steps: readonly Step[];
}

/** Another source whose current comes to the 3.3 V pins with no resistor on the way. */
function feeder(facts: Facts, view: PartView): Feeder | null {
  for (const { view: other, source } of facts.sourcesFor(`${view.part.id}.${V33}`)) {
    if (source.kind === 'pin' || source.kind === 'audio' || (other === view && source.kind === 'rail')) continue;
    const ways = closableReach(facts, `${other.part.id}.${source.terminal}`, ['fuse', 'contact', 'conductor', 'diode']);
    // The pin at which the way in ends, not one that is joined to it on the board.
    const steps = PINS.map((p) => ways.get(`${view.part.id}.${p}`)).find((way) => way?.[way.length - 1]?.wire);
    if (steps)
      return {
        view: other,
        nominalV: (source.kind === 'battery' || source.kind === 'feed') && !source.half ? facts.plan.vehicle.systemV : source.nominalV,
        steps,
      };
  }
  return null;
}

/** The most that leaves the 3.3 V pins over their wires, A. */
function drawnA(facts: Facts, view: PartView): number | null {
  const wires = PINS.flatMap((p) => {
    const key = `${view.part.id}.${p}`;
    return facts
      .netWires(facts.netOf(key))
      .flatMap((w) => (`${w.from.part}.${w.from.terminal}` === key ? [{ w, sign: 1 }] : `${w.to.part}.${w.to.terminal}` === key ? [{ w, sign: -1 }] : []));
  });
  let most: number | null = null;
  for (const r of facts.solved) {
    const sum = wires.reduce((a, { w, sign }) => a + sign * (facts.wireA(w.id, r.state, r.band) ?? 0), 0);
    most = Math.max(most ?? 0, sum);
  }
  return most;
}
