import type { Id } from '../plan/types.ts';
import type { TerminalKey } from './factsTypes.ts';
import type { Analysis, Reading } from './types.ts';

/** Figures of readings by the names of what they belong to; null where there is none. */
interface Lookups {
  volts(r: Reading, key: TerminalKey): number | null;
  wire(r: Reading, id: Id): number | null;
  element(r: Reading, part: Id, element: string, port?: string): number | null;
  device(r: Reading, part: Id, device: string): boolean;
}

export function lookups(analysis: Analysis): Lookups {
  const { index } = analysis;
  const terminals = placesOf(index.terminals);
  const wires = placesOf(index.wires);
  const elements = placesByPart(index.elements);
  const devices = placesByPart(index.devices);
  const read = (array: Float64Array, i: number | undefined, r: Reading): number | null => {
    if (i === undefined || r.status !== 'solved') return null;
    const x = array[i]!;
    return Number.isNaN(x) ? null : x;
  };
  return {
    volts: (r, key) => read(r.terminalV, terminals.get(key), r),
    wire: (r, id) => read(r.wireA, wires.get(id), r),
    element: (r, part, element, port) => read(r.elementA, elements.get(part)?.get(port ? `${element}:${port}` : element), r),
    device: (r, part, device) => r.deviceOn[devices.get(part)?.get(device) ?? -1] === 1,
  };
}

function placesOf(names: readonly string[]): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  for (let i = 0; i < names.length; i++) places.set(names[i]!, i);
  return places;
}

/** Places of `part:rest`, by part and rest: both are at hand where one asks, and need not be joined. */
function placesByPart(names: readonly string[]): ReadonlyMap<Id, ReadonlyMap<string, number>> {
  const places = new Map<Id, Map<string, number>>();
  for (let i = 0; i < names.length; i++) {
    const name = names[i]!;
    const colon = name.indexOf(':');
    const part = name.slice(0, colon);
    let own = places.get(part);
    if (!own) {
      own = new Map();
      places.set(part, own);
    }
    own.set(name.slice(colon + 1), i);
  }
  return places;
}
