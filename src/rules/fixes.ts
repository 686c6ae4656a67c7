import { smallestAreaMm2 } from '../analysis/choose.ts';
import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { apply } from '../plan/apply.ts';
import { setSettings, setVehicle } from '../plan/edits.ts';
import type { Change, Edit, End, Id, Plan, Value, Wire } from '../plan/types.ts';
import { planningLimit } from '../trade/ampacity.ts';
import { TERMINATION_OHM } from '../trade/conductors.ts';
import { CONVERTERS, type ConverterClass, type ConverterFacts } from '../trade/converters.ts';
import { two } from './defineRule.ts';
import { type Converter, outputA } from './rails.ts';
import { change } from './taps.ts';
import type { Repair } from './types.ts';

const INSULATION_C = 105;
const HOTTER_INSULATION_C = 125;

/** Types or frees settings of one part. */
export function typing(id: Id, settings: Readonly<Record<string, Value | undefined>>, title: string, safe: boolean): Repair {
  return { title, safe, edit: (plan) => (plan.parts[id] ? setSettings(plan, id, settings) : null) };
}

/** Loaded wires that a bundle factor stands for, at the most. */
function loadedWires(kN: number): number {
  if (kN >= 1) return 1;
  if (kN >= 0.8) return 6;
  if (kN >= 0.7) return 9;
  return kN >= 0.6 ? 24 : 25;
}

/** What a wire must be made of to carry `amp` for ever where it lies; better insulation where no size would do. */
export function thickEnough(facts: Facts, id: Id, amp: number, maxOhmPerM = Number.POSITIVE_INFINITY): Pick<Wire, 'areaMm2' | 'insulationC'> {
  const wire = facts.plan.wires[id]!;
  const report = facts.analysis.wires[id]!;
  const insulationC = wire.insulationC ?? INSULATION_C;
  const loaded = loadedWires(report.kN);
  const choose = (c: number): number =>
    smallestAreaMm2({ amp, insulationC: c, zoneC: report.zoneC, loadedWires: loaded, maxOhmPerM, leastMm2: report.areaMm2 }).areaMm2;
  const areaMm2 = choose(insulationC);
  if (planningLimit(areaMm2, insulationC, report.zoneC, loaded).limitA >= amp) return { areaMm2 };
  const better = insulationC < INSULATION_C && report.zoneC + 10 <= INSULATION_C ? INSULATION_C : HOTTER_INSULATION_C;
  return { areaMm2: choose(better), insulationC: better };
}

/** Gives wires the sizes (and insulation) found for them. */
export function thicken(makings: ReadonlyMap<Id, Pick<Wire, 'areaMm2' | 'insulationC'>>, safe: boolean): Repair {
  const sizes = [...makings.values()].map((m) => m.areaMm2 ?? 0);
  const most = two(Math.max(...sizes));
  const what = makings.size === 1 ? `the wire ${most} mm²` : `${makings.size} wires ${new Set(sizes).size > 1 ? 'up to ' : ''}${most} mm²`;
  const insulation = [...makings.values()].map((m) => m.insulationC).find((c) => c !== undefined);
  return {
    title: `Make ${what}${insulation === undefined ? '' : ` with ${insulation} °C insulation`}`,
    safe,
    edit: (plan) =>
      change(plan, 'wire.thicken', 'Thicken wires', (draft) => {
        for (const [id, making] of makings) if (plan.wires[id]) draft.setWire({ ...plan.wires[id], ...making });
      }),
  };
}

/**
 * Thicker wires along a way, so that together they lose no more than a budget: each gets its share by length and by the root of
 * its current, which takes the least copper, at the current it carries at the lowest supply, less what crimps lose. Null when that would take more than `mostMm2`.
 */
export function thickenForDrop(facts: Facts, wires: readonly Wire[], budgetV: number, mostMm2: number): Repair | null {
  const amp = (w: Wire): number => Math.abs(facts.designWireA(w.id) ?? 0);
  const weight = wires.reduce((sum, w) => sum + facts.wireLengthM(w.id) * Math.sqrt(amp(w)), 0);
  const crimpsV = wires.reduce((sum, w) => sum + amp(w) * 2 * TERMINATION_OHM.crimp, 0);
  const left = budgetV - crimpsV;
  if (left <= 0 || weight === 0) return null;
  const makings = new Map<Id, Pick<Wire, 'areaMm2' | 'insulationC'>>();
  for (const w of wires) {
    const report = facts.analysis.wires[w.id];
    if (!report || w.owner !== 'build' || amp(w) < 1e-6) continue;
    const making = thickEnough(facts, w.id, report.heatA, left / (Math.sqrt(amp(w)) * weight));
    if ((making.areaMm2 ?? 0) > report.areaMm2) makings.set(w.id, making);
  }
  const largest = Math.max(0, ...[...makings.values()].map((m) => m.areaMm2 ?? 0));
  return makings.size === 0 || largest > mostMm2 ? null : thicken(makings, true);
}

/** Every figure that a class of converter brings; the usual class brings none. */
const CLASS_KEYS: readonly string[] = [...new Set(Object.values(CONVERTERS).flatMap((c) => Object.keys(c))), 'enActive', 'enMaxV'].filter(
  (k) => k !== 'title' && k !== 'basis' && k !== 'source',
);

/** Another class of converter in its place: the first that meets `ok` and gives what is drawn. */
export function swapConverter(facts: Facts, c: Converter, ok: (x: ConverterFacts) => boolean): Repair[] {
  if (c.view.kind.kind !== 'step-down') return [];
  const { peakA, heatA } = outputA(facts, c);
  for (const id of Object.keys(CONVERTERS) as ConverterClass[]) {
    const x = CONVERTERS[id];
    if (x.trimmer || peakA > x.ratedA || heatA > allowedOutputA(x.ratedA, c.view.runningMaxC) || !ok(x)) continue;
    const variant = c.view.kind.variants?.find((v) => v.id === id);
    if (!variant) continue;
    const cleared = Object.fromEntries(CLASS_KEYS.map((k) => [k, undefined]));
    return [typing(c.view.part.id, { ...cleared, ...variant.settings }, `Fit another converter: ${x.title}`, false)];
  }
  return [];
}

/** Steady output current of a converter, A: 80 % of its rating up to 45 °C, falling to half of that at 85 °C (common practice, no source). */
export function allowedOutputA(ratedA: number, surroundingsC: number): number {
  const k = Math.max(0, Math.min(1, 1 - (0.5 * (surroundingsC - 45)) / 40));
  return 0.8 * ratedA * k;
}

/** Turns a part round: wires on one terminal go to the other and back. Null when nothing ends there. */
export function turnRound(view: PartView, one: string, other: string, title: string): Repair {
  const id = view.part.id;
  const swapped = (end: End): End => {
    if (end.part !== id || (end.terminal !== one && end.terminal !== other)) return end;
    return { part: id, terminal: end.terminal === one ? other : one };
  };
  return {
    title,
    safe: true,
    edit: (plan) =>
      change(plan, 'part.turn-round', title, (draft) => {
        for (const w of Object.values(plan.wires)) {
          const next = { ...w, from: swapped(w.from), to: swapped(w.to) };
          if (next.from !== w.from || next.to !== w.to) draft.setWire(next);
        }
      }),
  };
}

/** Takes one wire away; asked first, because somebody drew it. */
export function removeWire(id: Id, title: string): Repair {
  return {
    title,
    safe: false,
    edit: (plan: Plan) => {
      const row = plan.wires[id];
      return row ? { intent: 'wire.remove', label: title, changes: [{ table: 'wires', id, before: row, after: null }] } : null;
    },
  };
}

/** Answers a question about the vehicle: its alternator clamps a load dump. */
export function answerClamping(facts: Facts): Repair[] {
  if (facts.plan.vehicle.centralClamping !== 'unknown') return [];
  return [
    {
      title: 'Answer: its alternator clamps the load dump',
      safe: false,
      edit: (plan) => setVehicle(plan, { centralClamping: 'yes' }),
    },
  ];
}

/** Several edits in a row as one: each is made against the plan that the ones before it leave. Null when one does not fit. */
export function inTurn(plan: Plan, intent: string, label: string, steps: readonly ((plan: Plan) => Edit | null)[]): Edit | null {
  let at = plan;
  const changes: Change[] = [];
  for (const step of steps) {
    const edit = step(at);
    const applied = edit && apply(at, edit);
    if (!edit || !applied?.ok) return null;
    at = applied.plan;
    changes.push(...edit.changes);
  }
  return { intent, label, changes };
}
