import type { Facts } from '../../analysis/factsTypes.ts';
import type { VehicleState } from '../../plan/types.ts';
import { crankDip, loadedV } from '../crankDip.ts';
import { called, defineRule, part, STATE_WORDS, verdicts, volts, voltsApart } from '../defineRule.ts';
import { swapConverter, typing } from '../fixes.ts';
import { type Converter, converters, feedsComputer, vehicleRail } from '../rails.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, unknown, found } = verdicts('converter-starves', 'C1');
/** Below this there is no supply to speak of, V. */
const DEAD_V = 0.5;
/** Drop that a P-channel guard has where a series diode stood, V at its rated current. */
const TRANSISTOR_DROP_V = 0.1;

export const converterStarves = defineRule({
  id: 'converter-starves',
  code: 'C1',
  level: 'fault',
  title: 'Converter starves when the supply dips',
  why: 'A converter needs its input well above its output. While the starter turns, or on a tired battery, what is left after wires and guards may be too little: the computer resets.',
  source: { text: 'ISO 16750-2 starting profiles (from memory), converter data sheets', grade: 'standard' },
  needs: 'solve',
  disputed:
    'Some try a build on a full battery of 12.6 V and call it done. It costs nothing and shows gross mistakes; a tired battery, thin wires in summer heat and a full load show only together. Here both ends count: the lowest supply with hot wires and heavy loads, and the highest with cold ones.',
  explains: ['feed-drop', 'five-volt-drop', 'five-volt-window', 'dip-not-bridged', 'starting-reboots-computer'],
  check: (facts) => {
    const rail = vehicleRail(facts);
    return converters(facts).flatMap((c) => (rail.has(c.inKey) ? [judge(facts, c)] : []));
  },
  repair: (finding, facts) => {
    const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
    return c ? repairs(facts, c) : [];
  },
});

function judge(facts: Facts, c: Converter): Verdict {
  const subject = part(c.view.part.id);
  const needV = c.load.minV ?? 0;
  const least = leastInput(facts, c);
  const starving = starvingState(facts, c);
  if (starving) {
    return found({
      level: 'fault',
      subject,
      what: `${called(c.view)} starves with the key at “${STATE_WORDS[starving]}”: under load its input falls below ${volts(stopV(c))}, it lets go, recovers and tries again.`,
      todo: 'Make the feed wires thicker or shorter, or fit a guard with less drop, or a converter that works from fewer volts.',
      figures: [{ label: 'needed at the input', value: needV, unit: 'V' }],
      state: starving,
      band: 'low',
    });
  }
  if (!least) return unknown(subject, 'a supply, and a way back to ground, in some key position');
  if (least.v >= needV) return fine(subject);
  const [gets, needs] = voltsApart(least.v, needV);
  // A camera or a lamp may blink while the engine starts; a computer may not.
  const blinks = least.state === 'START' && !feedsComputer(facts, c);
  return found({
    level: blinks ? 'advice' : 'fault',
    subject,
    what: `${called(c.view)} gets ${least.v < DEAD_V ? 'nothing' : gets} at worst with the key at “${STATE_WORDS[least.state]}” and needs ${needs} to hold ${volts(c.source.nominalV)}.`,
    todo: blinks
      ? 'Nothing, if what it feeds may go dark while the engine starts; else a converter that steps up as well.'
      : least.state === 'START'
        ? 'A converter that works from fewer volts (or steps up as well), a guard with less drop, or let the computer restart after each start of the engine.'
        : 'Thicker or shorter feed wires, a guard with less drop, or a converter that works from fewer volts.',
    figures: [
      { label: 'arrives at worst', value: least.v < DEAD_V ? 0 : least.v, unit: 'V' },
      { label: 'needed at the input', value: needV, unit: 'V' },
    ],
    state: least.state,
    band: 'low',
  });
}

/** Least input over all states in which it runs. What a store carries it through does not count; the first dip of a start has a rule of its own. */
function leastInput(facts: Facts, c: Converter): { v: number; state: VehicleState } | null {
  const arrival = facts.analysis.arrivals.find((a) => a.part === c.view.part.id && a.plus === c.load.plus);
  if (!arrival?.worstLow) return null;
  const { state } = arrival.worstLow;
  const v = state === 'START' ? loadedV(facts, c, arrival.worstLow) : arrival.worstLow.v;
  if (state !== 'START' || !crankDip(facts, c)?.carried) return { v, state };
  const minus = `${c.view.part.id}.${c.load.minus}`;
  const others = facts.solved.flatMap((r) => {
    const alive = (facts.across(c.inKey, minus, r.state, 'typical') ?? 0) > c.load.nominalV / 2;
    const low = r.band === 'low' && r.state !== 'START' && alive ? facts.across(c.inKey, minus, r.state, 'low') : null;
    return low === null ? [] : [{ v: low, state: r.state }];
  });
  return others.sort((a, b) => a.v - b.v)[0] ?? { v, state };
}

function stopV(c: Converter): number {
  return c.view.kind.kind === 'step-down' ? c.view.s.num('stopV') : (c.load.minV ?? 0);
}

/** The first state in which it cycles between running and letting go. */
function starvingState(facts: Facts, c: Converter): VehicleState | null {
  const bad = facts.analysis.readings.find((r) => r.band === 'low' && r.trouble?.kind === 'starves' && r.trouble.where.startsWith(`${c.view.part.id}:`));
  return bad?.state ?? null;
}

function repairs(facts: Facts, c: Converter): Repair[] {
  const worst = leastInput(facts, c);
  if (!worst || starvingState(facts, c)) return [];
  const least = { ...worst, v: worst.state === 'START' ? worst.v : loadedV(facts, c, worst) };
  const list: Repair[] = [];
  const way = vehicleRail(facts).get(c.inKey);
  const guard = way?.steps.map((s) => s.through).find((v) => v?.kind.kind === 'reverse-guard' && v.s.str('type') === 'schottky');
  const gainV = guard ? guard.s.num('dropV') - TRANSISTOR_DROP_V : 0;
  if (guard && least.v + 0.9 * gainV >= (c.load.minV ?? 0)) {
    list.push(
      typing(guard.part.id, { type: 'p-channel', dropV: TRANSISTOR_DROP_V, clamped: true }, 'Fit a P-channel guard in place of the series diode', true),
    );
  }
  const seenV = facts.seenSurgeV(c.inKey);
  return [...list, ...swapConverter(facts, c, (x) => least.v >= Math.max(x.stopV, x.setV + x.dropV) && 0.9 * x.absMaxV >= seenV)];
}
