import demo from '../../public/plans/mobile-library-van.plan.json';
import type { End, Id, Part, Plan, Wire } from '../../src/plan/types.ts';

const DEMO = demo as unknown as Plan;

/** What a vehicle has once however much is built into it: its battery and that battery's strap. */
const isShared = (p: Part): boolean => p.owner === 'vehicle' && (p.kind === 'battery' || p.kind === 'chassis-ground');

const STIFF = { sourceMinOhm: 0.0005, sourceMaxOhm: 0.001 } as const;

/**
 * The demo built into one vehicle again and again (feeds with fuses, relay, guard, clamp, converter, computer, sensor,
 * display, sound, buttons), filled up with indicators behind its sense fuse to the number of parts wanted.
 */
export function largePlan(parts: number): Plan {
  const shared = Object.values(DEMO.parts).filter(isShared);
  const perCell = Object.keys(DEMO.parts).length - shared.length;
  // One vehicle's battery would sag under thirty computers; this one has the bank for it.
  const rows: Record<Id, Part> = Object.fromEntries(shared.map((p) => [p.id, p.kind === 'battery' ? { ...p, settings: STIFF } : p]));
  const wires: Record<Id, Wire> = {};
  const sharedIds = new Set(shared.map((p) => p.id));
  const once = Object.values(DEMO.wires).filter((w) => sharedIds.has(w.from.part) && sharedIds.has(w.to.part));
  for (const w of once) wires[w.id] = w;
  let serial = DEMO.nextSerial;
  let fuse: Part | undefined;
  let ground: Part | undefined;
  const add = (part: Omit<Part, 'id'>): Part => {
    const row: Part = { ...part, id: `p${serial++}` };
    rows[row.id] = row;
    return row;
  };
  const join = (from: End, to: End, of: Partial<Wire> = {}): void => {
    const id = `w${serial++}`;
    wires[id] = { owner: 'build', ...of, id, from, to };
  };
  while (Object.keys(rows).length + perCell <= parts) {
    const renamed = new Map(shared.map((p) => [p.id, p.id]));
    for (const p of Object.values(DEMO.parts)) {
      if (isShared(p)) continue;
      const row = add(p);
      renamed.set(p.id, row.id);
      if (p.kind === 'blade-fuse' && p.name === 'Sense fuse') fuse = row;
      if (p.kind === 'chassis-ground' && p.owner === 'build') ground = row;
    }
    for (const { from, to, number: _number, ...of } of Object.values(DEMO.wires)) {
      if (sharedIds.has(from.part) && sharedIds.has(to.part)) continue;
      join({ ...from, part: renamed.get(from.part)! }, { ...to, part: renamed.get(to.part)! }, of);
    }
  }
  for (let left = parts - Object.keys(rows).length; left > 0 && fuse && ground; left -= 2) {
    const place = { owner: 'build', zone: fuse.zone, x: 20, y: 20, turn: 0, settings: {} } as const;
    const resistor = left > 1 ? add({ ...place, kind: 'resistor' }) : null;
    const led = add({ ...place, kind: 'led' });
    if (resistor) join({ part: fuse.id, terminal: '2' }, { part: resistor.id, terminal: '1' });
    join(resistor ? { part: resistor.id, terminal: '2' } : { part: fuse.id, terminal: '2' }, { part: led.id, terminal: 'A' });
    join({ part: led.id, terminal: 'K' }, { part: ground.id, terminal: '31' });
  }
  return { ...DEMO, id: 'large', title: `Large plan, ${parts} parts`, parts: rows, wires, nextSerial: serial };
}

/** The demo itself. */
export const demoPlan: Plan = DEMO;
