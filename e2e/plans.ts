import { emptyPlan } from '../src/plan/new.ts';
import type { End, Part, Plan, Wire } from '../src/plan/types.ts';

/**
 * A few parts with room between them: behind the radio a feed with its fuse, under the seat a converter and a lonely
 * resistor. The wire from fuse to converter lies straight and free, so that things can be dropped on it.
 */
export function smallPlan(title = 'Small plan'): Plan {
  const parts: Part[] = [
    part('p10', 'battery', 'z1', 40, 60, { owner: 'vehicle' }),
    part('p11', 'chassis-ground', 'z1', 60, 420, { owner: 'vehicle', name: 'Battery strap' }),
    part('p12', 'feed-30', 'z2', 30, 60, { owner: 'vehicle', name: 'Feed' }),
    part('p13', 'blade-fuse', 'z2', 190, 70, { name: 'Fuse' }),
    part('p14', 'step-down', 'z3', 220, 60, { name: 'Converter' }),
    part('p15', 'chassis-ground', 'z2', 160, 420, { name: 'Ground' }),
    part('p16', 'resistor', 'z3', 80, 260, { name: 'Resistor' }),
  ];
  const wires: Wire[] = [
    wire('w20', ['p10', '+'], ['p12', 'in'], 'vehicle'),
    wire('w21', ['p10', '-'], ['p11', '31'], 'vehicle'),
    { ...wire('w22', ['p12', 'out'], ['p13', '1']), lengthM: 0.1 },
    wire('w23', ['p13', '2'], ['p14', 'in']),
    wire('w24', ['p14', 'gnd'], ['p15', '31']),
  ];
  return {
    ...emptyPlan(title, { batteryAh: 90 }, `e2e-${title.toLowerCase().replaceAll(' ', '-')}`),
    parts: Object.fromEntries(parts.map((p) => [p.id, p])),
    wires: Object.fromEntries(wires.map((w) => [w.id, w])),
    nextSerial: 30,
  };
}

function part(id: string, kind: string, zone: string, x: number, y: number, more: Partial<Part> = {}): Part {
  return { id, kind, owner: 'build', zone, x, y, turn: 0, settings: {}, ...more };
}

function wire(id: string, from: readonly [string, string], to: readonly [string, string], owner: Wire['owner'] = 'build'): Wire {
  const end = ([p, terminal]: readonly [string, string]): End => ({ part: p, terminal });
  return { id, owner, from: end(from), to: end(to) };
}
