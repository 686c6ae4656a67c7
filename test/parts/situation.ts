import { settingsOf } from '../../src/parts/definePart.ts';
import type { Behaviour, PartKind, Settings, Situation } from '../../src/parts/types.ts';
import type { Values, Vehicle } from '../../src/plan/types.ts';
import { isLive } from '../../src/trade/lines.ts';

export const VAN: Vehicle = {
  name: 'van',
  systemV: 12,
  polarity: 'negative-ground',
  batteryAh: 70,
  centralClamping: 'yes',
  dipLevel: 'I',
  parkedA: 0.02,
  standingDays: 14,
  stopStart: false,
  remoteStart: false,
  electrified: false,
  isolator: false,
};

/** A situation with everything at rest and wired; say what differs. */
export function situation(more: Partial<Situation> = {}): Situation {
  const state = more.state ?? 'RUN_CHARGING';
  return {
    state,
    band: 'typical',
    vehicle: VAN,
    supplyV: 14.2,
    ambientC: 20,
    live: (line) => isLive(line, state),
    load: 'typical',
    on: () => false,
    wired: () => true,
    pressed: false,
    ...more,
  };
}

export function settings(kind: PartKind, typed: Values = {}): Settings {
  return settingsOf(kind, typed);
}

export function behave(kind: PartKind, typed: Values = {}, more: Partial<Situation> = {}): Behaviour {
  return kind.behave(settings(kind, typed), situation(more));
}

/** The element of that id and kind. */
export function element<K extends Behaviour['elements'][number]['kind']>(
  b: Behaviour,
  id: string,
  kind: K,
): Extract<Behaviour['elements'][number], { kind: K }> {
  const found = b.elements.find((e) => e.id === id);
  if (found?.kind !== kind) throw new Error(`no ${kind} "${id}" among ${b.elements.map((e) => `${e.kind} ${e.id}`).join(', ')}`);
  return found as Extract<Behaviour['elements'][number], { kind: K }>;
}

/** Asks a device what it wants, given volts by node (absent = 0). */
export function wants(b: Behaviour, id: string, on: boolean, volts: Readonly<Record<string, number>>, others: readonly string[] = []): boolean {
  const device = b.devices?.find((d) => d.id === id);
  if (!device) throw new Error(`no device "${id}"`);
  return device.wants({ volts: (n) => volts[n] ?? 0, amps: () => 0, on: (x) => others.includes(x) }, on);
}

/** A parameter at the lower or upper corner of its tolerance. */
export function corner(e: Behaviour['elements'][number], parameter: string, side: 'down' | 'up'): number {
  const value = Object.entries(e).find(([key]) => key === parameter)?.[1];
  const tol = e.tol?.[parameter];
  if (typeof value !== 'number' || tol === undefined) throw new Error(`${e.id} has no tolerance of ${parameter}`);
  if (typeof tol === 'number') return value * (side === 'down' ? 1 - tol : 1 + tol);
  return value * tol[side === 'down' ? 0 : 1];
}
