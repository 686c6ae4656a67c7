import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { boardOf } from '../../parts/computer/settings.ts';
import { bankFarad } from '../../parts/storeFigures.ts';
import { Draft } from '../../plan/draft.ts';
import { nearestPreferred, RESISTOR_WATTS } from '../../trade/preferred.ts';
import { formatAmount } from '../../trade/units.ts';
import { beside, end, newPart, newWire, SHORT_M } from '../build.ts';
import { called, defineRule, ohms, part, plain, two, verdicts } from '../defineRule.ts';
import { fedNets, filledBy } from '../outputs.ts';
import { type Converter, converters } from '../rails.ts';
import { endingAt } from '../supplyHold.ts';
import { netAt } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('five-volt-half-alive', 'C12');
/** Between these volts a board neither runs nor resets (common practice, no source). */
const FROM_V = 4.6;
const TO_V = 0.5;
/** So long it may lie between them, s (common practice, no source). */
const MOST_S = 2;
/** Least bleed resistor that is put across 5 V, ohm: it burns three quarters of a watt. */
const LEAST_BLEED_OHM = 33;

export const fiveVoltHalfAlive = defineRule({
  id: 'five-volt-half-alive',
  code: 'C12',
  level: 'advice',
  title: 'Output capacitors keep the 5 V half alive',
  why: 'A stopped computer draws little: a large capacitor on its 5 V runs down slowly. Switched on again before it is empty, the board may hang between running and starting.',
  source: { text: 'Time C × ΔV / I, with a resistor R C ln(4.6 / 0.5); two seconds from practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => converters(facts).flatMap((c) => judge(facts, c)),
  repair: (finding, facts) => {
    const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
    return c ? bleedRepair(facts, c) : [];
  },
});

interface Fall {
  readonly computer: PartView;
  readonly caps: readonly PartView[];
  readonly farad: number;
  readonly haltedA: number;
  readonly seconds: number;
}

/** How the 5 V of a converter falls once it has been switched off; null when nothing is stored on it or no computer hangs on it. */
function fallOf(facts: Facts, c: Converter): Fall | null {
  const nets = fedNets(facts, c);
  const computer = facts.ofKind('computer').find((v) => nets.has(netAt(facts, v, supplyPair(v.s).plus)));
  const caps = filledBy(facts, c, ['capacitor', 'store']);
  if (!computer || caps.length === 0) return null;
  const farad = caps.reduce((sum, v) => sum + (v.kind.kind === 'store' ? bankFarad(v.s) : v.s.num('farad')), 0);
  const siemens = filledBy(facts, c, ['resistor']).reduce((sum, r) => sum + 1 / r.s.num('ohm'), 0);
  const haltedA = boardOf(computer.s).offA;
  const byBoard = (farad * (FROM_V - TO_V)) / haltedA;
  const byBleed = siemens > 0 ? (farad / siemens) * Math.log(FROM_V / TO_V) : Number.POSITIVE_INFINITY;
  return { computer, caps, farad, haltedA, seconds: Math.min(byBoard, byBleed) };
}

/** For how long the supply is sure to stay away once it has gone, s. */
function pauseS(facts: Facts, computer: PartView): number {
  const ending = endingAt(facts, computer, supplyPair(computer.s).plus);
  return Math.max(0, ...[...(ending?.contacts ?? [])].map((v) => (v.kind.kind === 'delay-off-relay' ? v.s.num('minOffS') : 0)));
}

function judge(facts: Facts, c: Converter): Verdict[] {
  const fall = fallOf(facts, c);
  if (!fall) return [];
  const subject = part(c.view.part.id);
  if (fall.seconds <= Math.max(MOST_S, pauseS(facts, fall.computer))) return [fine(subject)];
  return [
    found({
      level: 'advice',
      subject,
      related: [part(fall.computer.part.id), ...fall.caps.map((v) => part(v.part.id))],
      what: `With its supply gone, the ${formatAmount(fall.farad, 'F')} behind ${called(c.view)} keep ${called(fall.computer)} half alive for ${inTime(fall.seconds)}, from ${FROM_V} V down to ${TO_V} V: switched on again meanwhile it may hang.`,
      todo: 'Put a bleed resistor across the 5 V, fit a smaller capacitor, or keep the supply away for longer.',
      figures: [
        { label: 'half alive for', value: fall.seconds, unit: 's' },
        { label: 'may be', value: MOST_S, unit: 's' },
      ],
    }),
  ];
}

function inTime(seconds: number): string {
  return seconds < 120 ? `${two(seconds)} s` : `${two(seconds / 60)} minutes`;
}

/** A resistor across the largest of the capacitors that empties them in time, where it does not burn more than it is worth. */
function bleedRepair(facts: Facts, c: Converter): Repair[] {
  const fall = fallOf(facts, c);
  if (!fall) return [];
  const most = MOST_S / (fall.farad * Math.log(FROM_V / TO_V));
  const cap = fall.caps.filter((v) => v.kind.kind === 'capacitor').sort((a, b) => b.s.num('farad') - a.s.num('farad'))[0];
  if (most < LEAST_BLEED_OHM || !cap) return [];
  const ohm = nearestPreferred(most, 'E12', 'down');
  const ratedW = RESISTOR_WATTS.find((w) => w >= (2 * c.source.nominalV ** 2) / ohm);
  if (ratedW === undefined) return [];
  return [
    {
      title: `Put ${ohms(ohm)}, ${plain(ratedW)} W across ${called(cap)}`,
      safe: true,
      edit: (plan) => {
        const row = plan.parts[cap.part.id];
        if (!row) return null;
        const draft = new Draft(plan);
        const bleed = newPart(draft, { kind: 'resistor', ...beside(row, 0, 60), name: 'Bleed', settings: { ohm, ratedW } });
        newWire(draft, end(bleed, '1'), end(cap.part.id, '+'), { lengthM: SHORT_M });
        newWire(draft, end(bleed, '2'), end(cap.part.id, '-'), { lengthM: SHORT_M });
        return draft.edit('repair.apply', 'Add a bleed resistor');
      },
    },
  ];
}
