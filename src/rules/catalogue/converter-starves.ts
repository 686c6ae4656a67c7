import type { Facts } from '../../analysis/factsTypes.ts';
import type { VehicleState } from '../../plan/types.ts';
import { CRANK_RIPPLE_V } from '../../trade/supply.ts';
import { called, defineRule, part, STATE_WORDS, verdicts, volts } from '../defineRule.ts';
import { swapConverter, typing } from '../fixes.ts';
import { type Converter, converters, cornersOf, vehicleRail } from '../rails.ts';
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
  needs: 'readings',
  explains: ['feed-drop', 'five-volt-drop', 'five-volt-window'],
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
      todo: 'Thicker or shorter feed wires, a guard with less drop, or a converter that works from fewer volts.',
      figures: [{ label: 'needed at the input', value: needV, unit: 'V' }],
      state: starving,
      band: 'low',
    });
  }
  if (!least) return unknown(subject, 'a supply, and a way back to ground, in some key position');
  if (least.v >= needV) return fine(subject);
  const dip = least.dip ? ` in the dip of level ${facts.plan.vehicle.dipLevel}` : '';
  return found({
    level: 'fault',
    subject,
    what: `${called(c.view)} gets ${least.v < DEAD_V ? 'nothing' : volts(least.v)} at worst with the key at “${STATE_WORDS[least.state]}”${dip} and needs ${volts(needV)} to hold ${volts(c.source.nominalV)}.`,
    todo:
      least.state === 'START'
        ? 'A converter that works from fewer volts (or steps up as well), a guard with less drop, or let the computer restart after each start of the engine.'
        : 'Thicker or shorter feed wires, a guard with less drop, or a converter that works from fewer volts.',
    figures: [
      { label: 'arrives at worst', value: least.v, unit: 'V' },
      { label: 'needed at the input', value: needV, unit: 'V' },
    ],
    state: least.state,
    band: 'low',
  });
}

/** Least input over all states in which it runs; while starting, the first dip lies below the plateau that readings show. */
function leastInput(facts: Facts, c: Converter): { v: number; state: VehicleState; dip: boolean } | null {
  const arrival = facts.analysis.arrivals.find((a) => a.part === c.view.part.id && a.plus === c.load.plus);
  if (!arrival?.worstLow) return null;
  const worst = { v: arrival.worstLow.v, state: arrival.worstLow.state, dip: false };
  const corners = cornersOf(facts);
  const start = facts.across(c.inKey, `${c.view.part.id}.${c.load.minus}`, 'START', 'low');
  const alive = (facts.across(c.inKey, `${c.view.part.id}.${c.load.minus}`, 'START', 'typical') ?? 0) > c.load.nominalV / 2;
  if (start === null || !alive) return worst;
  const dipV = start + corners.crankDipV - (corners.crankPlateauV - CRANK_RIPPLE_V / 2);
  return dipV < worst.v ? { v: Math.max(0, dipV), state: 'START', dip: true } : worst;
}

function stopV(c: Converter): number {
  return c.view.kind.kind === 'step-down' ? c.view.s.num('stopV') : (c.load.minV ?? 0);
}

/** The first state in which it cycles between running and letting go. */
function starvingState(facts: Facts, c: Converter): VehicleState | null {
  const bad = facts.analysis.readings.find((r) => r.band === 'low' && r.trouble?.kind === 'starves' && r.trouble.where.startsWith(`${c.view.part.id}:`));
  return bad?.state ?? null;
}

/** The same with the converter running: one that has let go draws nothing and leaves its input too high. */
function loadedV(facts: Facts, c: Converter, least: { v: number; state: VehicleState }): number {
  if (c.view.kind.kind !== 'step-down' || facts.deviceOn(c.view.part.id, 'run', least.state, 'low')) return least.v;
  const designV = facts.designAcross(c.inKey, `${c.view.part.id}.${c.load.minus}`) ?? facts.corners.loV;
  return least.v - (facts.corners.loV - designV) * (facts.corners.loV / Math.max(1, least.v));
}

function repairs(facts: Facts, c: Converter): Repair[] {
  const worst = leastInput(facts, c);
  if (!worst || starvingState(facts, c)) return [];
  const least = { ...worst, v: loadedV(facts, c, worst) };
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
