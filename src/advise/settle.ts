import { buildGraph, type Graph, regraph } from '../analysis/graph.ts';
import { designCurrents, type Known } from '../analysis/index.ts';
import { Protection } from '../analysis/protection.ts';
import { wireEnds } from '../analysis/returns.ts';
import { type NetNature, natures } from '../analysis/roles.ts';
import { bySerial } from '../analysis/views.ts';
import { wireRoute } from '../plan/lengths.ts';
import { wireNumbers } from '../plan/numbers.ts';
import type { Id, Part, Plan, Value, Wire } from '../plan/types.ts';
import { chooseColours } from './colours.ts';
import { choosePins } from './pins.ts';
import { chooseResistors } from './resistors.ts';
import { chooseFuses, chooseSizes, insulationFor } from './sizes.ts';
import type { Reasons } from './types.ts';

export interface SettledPlan {
  /** The plan with every automatic value filled in; typed values are untouched. */
  readonly filled: Plan;
  readonly reasons: Reasons;
  /** What was found on the way and still holds. */
  readonly known: Known;
}

/**
 * Fills in what the person has not typed, in the order in which one thing rests on another: pins and resistors from
 * what is joined to them, lengths from runs, fuses from currents, sizes from fuses and drops, colours from roles, numbers.
 */
export function settlePlan(drawnPlan: Plan): SettledPlan {
  const plan = inOrder(drawnPlan);
  const reasons: Record<string, string> = {};
  const drawn = buildGraph(plan);
  const nature = natures(drawn);
  let filled = fillParts(plan, drawn, nature, reasons);
  filled = fillLengths(filled, reasons);
  const design = designCurrents(filled, regraph(drawn, filled), nature);
  const fuses = chooseFuses(design);
  filled = withSettings(
    filled,
    [...fuses].map(([id, c]) => {
      reasons[`part:${id}.ratingA`] = c.reason;
      return [id, { ratingA: c.ratingA }] as const;
    }),
  );
  const graph = regraph(design.graph, filled);
  const endsOf = wireEnds(graph, new Protection(graph), nature);
  const insulations = new Map([...design.basics].map(([id, b]) => [id, insulationFor(b.zoneMaxC)]));
  filled = fillWires(filled, chooseSizes(graph, endsOf, design), chooseColours(graph, nature), insulations, reasons);
  return { filled, reasons, known: { design, endsOf } };
}

/** Rows in the order of making, so that nothing further on can depend on the order in which a file or an edit left them. */
function inOrder(plan: Plan): Plan {
  return { ...plan, zones: sorted(plan.zones), runs: sorted(plan.runs), parts: sorted(plan.parts), wires: sorted(plan.wires) };
}

function sorted<T extends { readonly id: Id }>(table: Readonly<Record<Id, T>>): Readonly<Record<Id, T>> {
  const rows = Object.values(table);
  // A table that is in order already stays the one it is: what is known of it by identity is then known still.
  if (rows.every((row, i) => i === 0 || bySerial(rows[i - 1]!, row) <= 0)) return table;
  return Object.fromEntries(rows.sort(bySerial).map((row) => [row.id, row]));
}

function fillParts(plan: Plan, graph: Graph, nature: readonly NetNature[], reasons: Record<string, string>): Plan {
  const settings: (readonly [Id, Readonly<Record<string, Value>>])[] = [];
  for (const c of choosePins(graph)) {
    settings.push([c.part, { [c.key]: c.value }]);
    reasons[`part:${c.part}.${c.key}`] = c.reason;
  }
  for (const [id, c] of chooseResistors(graph, nature)) {
    const typedW = plan.parts[id]!.settings.ratedW !== undefined;
    const fillsW = c.ratedW !== null && !typedW;
    settings.push([id, { ohm: c.ohm, ...(fillsW ? { ratedW: c.ratedW! } : {}) }]);
    reasons[`part:${id}.ohm`] = c.reason;
    if (fillsW) reasons[`part:${id}.ratedW`] = c.reason;
  }
  return withSettings(plan, settings);
}

function withSettings(plan: Plan, settings: readonly (readonly [Id, Readonly<Record<string, Value>>])[]): Plan {
  if (settings.length === 0) return plan;
  const more = new Map<Id, Record<string, Value>>();
  for (const [id, values] of settings) more.set(id, { ...more.get(id), ...values });
  const parts: Record<Id, Part> = { ...plan.parts };
  for (const [id, values] of more) parts[id] = withValues(parts[id]!, values);
  return { ...plan, parts };
}

/** Filled parts by the part they were filled from: the same again when the same values are chosen, so that what is known of it stays known. */
const filledFrom = new WeakMap<Part, { readonly values: string; readonly part: Part }>();

function withValues(part: Part, more: Readonly<Record<string, Value>>): Part {
  const values = JSON.stringify(more);
  const found = filledFrom.get(part);
  if (found?.values === values) return found.part;
  const filled = { ...part, settings: { ...part.settings, ...more } };
  filledFrom.set(part, { values, part: filled });
  return filled;
}

function fillLengths(plan: Plan, reasons: Record<string, string>): Plan {
  const wires: Record<Id, Wire> = { ...plan.wires };
  for (const wire of Object.values(plan.wires)) {
    if (wire.lengthM !== undefined) continue;
    const route = wireRoute(plan, wire);
    if (!route) {
      reasons[`wire:${wire.id}.lengthM`] = 'no run joins these zones yet: type the length or add a run';
      continue;
    }
    wires[wire.id] = { ...wire, lengthM: route.lengthM };
    reasons[`wire:${wire.id}.lengthM`] =
      route.zones.length > 1 ? `over ${route.zones.map((z) => plan.zones[z]?.name ?? z).join(' › ')}, plus 0.3 m in each end zone` : 'within one zone: 0.3 m';
  }
  return { ...plan, wires };
}

function fillWires(
  plan: Plan,
  sizes: ReadonlyMap<Id, { areaMm2: number; reason: string }>,
  colours: ReadonlyMap<Id, { colour: NonNullable<Wire['colour']>; stripe?: Wire['stripe']; reason: string }>,
  insulations: ReadonlyMap<Id, number>,
  reasons: Record<string, string>,
): Plan {
  const wires: Record<Id, Wire> = { ...plan.wires };
  const numbers = wireNumbers(plan).standing;
  for (const wire of Object.values(plan.wires).sort(bySerial)) {
    if (wire.owner === 'vehicle') continue;
    const size = sizes.get(wire.id);
    const colour = colours.get(wire.id);
    const auto: { -readonly [K in keyof Wire]?: Wire[K] } = {};
    if (wire.number === undefined) {
      auto.number = numbers.get(wire.id)!;
      reasons[`wire:${wire.id}.number`] = 'in the order in which the wires were made';
    }
    if (wire.areaMm2 === undefined && size) {
      auto.areaMm2 = size.areaMm2;
      reasons[`wire:${wire.id}.areaMm2`] = size.reason;
    }
    if (wire.colour === undefined && colour) {
      auto.colour = colour.colour;
      reasons[`wire:${wire.id}.colour`] = colour.reason;
      if (wire.stripe === undefined && colour.stripe) {
        auto.stripe = colour.stripe;
        reasons[`wire:${wire.id}.stripe`] = colour.reason;
      }
    }
    if (wire.insulationC === undefined) {
      auto.insulationC = insulations.get(wire.id) ?? 105;
      reasons[`wire:${wire.id}.insulationC`] = auto.insulationC === 105 ? 'thin-wall 105 °C automotive wire' : 'crosses a place too hot for 105 °C wire';
    }
    wires[wire.id] = { ...wire, ...auto };
  }
  return { ...plan, wires };
}
