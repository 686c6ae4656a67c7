import { settingsOf } from '../parts/definePart.ts';
import { partKind, partKinds } from '../parts/index.ts';
import { itemNumbers } from '../plan/numbers.ts';
import type { Id, Part, Plan } from '../plan/types.ts';
import { zoneClimate } from '../trade/zones.ts';
import type { PartView } from './factsTypes.ts';

const DEFAULT_CLIMATE = zoneClimate('dash');

/** What a part says of itself wherever it stands; kept by identity, since parts never change in place. */
type Character = Pick<PartView, 'kind' | 's' | 'terminals' | 'facts'>;
const characters = new WeakMap<Part, Character>();

function characterOf(part: Part): Character {
  let found = characters.get(part);
  if (!found) {
    const kind = partKind(part.kind);
    const s = settingsOf(kind, part.settings);
    found = { kind, s, terminals: kind.terminals(s), facts: kind.facts(s) };
    characters.set(part, found);
  }
  return found;
}

/**
 * Every part of the plan with its kind, settings, terminals and facts at hand, in the order in which the parts
 * were made. Item numbers count per letter (F1, F2, K1 ...) and stay with what was removed.
 * @throws Error for a kind that does not exist (the codec refuses such plans).
 */
export function viewsOf(plan: Plan): Map<Id, PartView> {
  const items = itemNumbers(plan, letterOf).standing;
  const views = new Map<Id, PartView>();
  for (const part of Object.values(plan.parts).sort(bySerial)) {
    const character = characterOf(part);
    const { kind } = character;
    const zone = plan.zones[part.zone];
    const climate = zone ? zoneClimate(zone.kind) : DEFAULT_CLIMATE;
    views.set(part.id, {
      part,
      ...character,
      name: part.name ?? kind.title,
      item: `${kind.letter}${items.get(part.id)}`,
      maxC: zone?.maxC ?? climate.maxC,
      minC: zone?.minC ?? climate.minC,
      runningMaxC: Math.min(zone?.maxC ?? climate.runningMaxC, climate.runningMaxC),
    });
  }
  return views;
}

/** Letter of a kind's item number; null for a kind that does not exist. */
export function letterOf(kind: string): string | null {
  return partKinds.get(kind)?.letter ?? null;
}

/** Order of making: the serial inside the id. */
export function bySerial(a: { readonly id: string }, b: { readonly id: string }): number {
  return serial(a.id) - serial(b.id) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

function serial(id: string): number {
  const n = Number.parseInt(id.slice(1), 10);
  return Number.isFinite(n) ? n : Number.MAX_SAFE_INTEGER;
}

/** `part.terminal` of an end. */
export function keyOf(end: Part['id'], terminal: string): string {
  return `${end}.${terminal}`;
}
