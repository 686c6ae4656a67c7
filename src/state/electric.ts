import { sameRow } from '../plan/equal.ts';
import type { Part, Plan, Wire, Zone } from '../plan/types.ts';

/**
 * Would two plans compute the same? True when they differ at most in what is only drawing: places inside a zone,
 * turns, bends, zone widths and texts of the plan itself.
 */
export function sameElectric(a: Plan, b: Plan): boolean {
  return (
    a === b ||
    (sameRow(a.vehicle, b.vehicle) &&
      sameRow(a.thresholds, b.thresholds) &&
      sameRow(a.setAside, b.setAside) &&
      a.stage === b.stage &&
      sameRow(a.runs, b.runs) &&
      sameTable(a.zones, b.zones, (z: Zone) => ({ ...z, width: null })) &&
      sameTable(a.parts, b.parts, (p: Part) => ({ ...p, x: 0, y: 0, turn: 0 })) &&
      sameTable(a.wires, b.wires, (w: Wire) => ({ ...w, bends: undefined })))
  );
}

function sameTable<T>(a: Readonly<Record<string, T>>, b: Readonly<Record<string, T>>, bare: (row: T) => unknown): boolean {
  if (a === b) return true;
  const ids = Object.keys(a);
  if (ids.length !== Object.keys(b).length) return false;
  return ids.every((id) => {
    const left = a[id];
    const right = b[id];
    return left === right || (left !== undefined && right !== undefined && sameRow(bare(left), bare(right)));
  });
}
