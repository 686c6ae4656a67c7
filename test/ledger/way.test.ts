import { describe, expect, it } from 'vitest';
import { wayText } from '../../src/ledger/way.ts';
import { apply } from '../../src/plan/apply.ts';
import { setWire } from '../../src/plan/edits.ts';
import type { Plan, Wire } from '../../src/plan/types.ts';
import { smallPlan } from '../plan/laws.ts';

const METRIC = { area: 'mm2', length: 'm' } as const;
const plain = (text: string | null) => text?.replaceAll('\u00a0', ' ') ?? null;

describe('the way that a wire takes', () => {
  const { plan, ids } = smallPlan();
  const wire = plan.wires[ids.loadWire] as Wire;
  const name = (id: string) => plan.zones[id]?.name;

  it('names zones and runs so that they add up to the length: 2.2 m and twice 0.3 m make its 2.8 m', () => {
    expect(plain(wayText(plan, wire, METRIC))).toBe(`${name('z2')} – 2.2 m – ${name('z3')}, and 0.3 m at each end`);
    // 1 ft = 0.3048 m: definition.
    expect(plain(wayText(plan, wire, { area: 'mm2', length: 'ft' }))).toContain('– 7.22 ft –');
  });

  it('says when the length was typed, and nothing where no run joins the ends', () => {
    const typed = apply(plan, setWire(plan, wire.id, { lengthM: 5 }));
    if (!typed.ok) throw new Error(typed.reason);
    expect(wayText(typed.plan, typed.plan.wires[wire.id] as Wire, METRIC)).toBe(`${name('z2')} – ${name('z3')}; its length was typed`);
    const apart: Plan = { ...plan, runs: {} };
    expect(wayText(apart, wire, METRIC)).toBeNull();
  });
});
