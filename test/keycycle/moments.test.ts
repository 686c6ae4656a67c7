import { describe, expect, it } from 'vitest';
import { defaultScenario } from '../../src/analysis/time/scenario.ts';
import { momentsOf, moved, timeOf, untilOf, withDoor, withKeyBack, withoutPress, withPress } from '../../src/keycycle/moments.ts';
import { apply } from '../../src/plan/apply.ts';
import { setSettings } from '../../src/plan/partEdits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { demoPlan } from '../bench/largePlan.ts';

const plan = demoPlan;
const own = defaultScenario(plan);
const name = (id: string): string => plan.parts[id]?.name ?? id;
const button = Object.values(plan.parts).find((p) => p.kind === 'push-button')?.id ?? '';

/** The plan with a setting of its one part of a kind changed. */
function changed(kind: string, settings: Record<string, number>): Plan {
  const id = Object.values(plan.parts).find((p) => p.kind === kind)?.id ?? '';
  const edit = setSettings(plan, id, settings);
  const done = edit && apply(plan, edit);
  if (!done?.ok) throw new Error(`no ${kind} to change`);
  return done.plan;
}

describe('moments that may be moved', () => {
  it('are start, key off and door, with how long after key-off', () => {
    const moments = momentsOf(plan, own, name);
    expect(moments.map((m) => m.label)).toEqual(['start', 'key off', 'door']);
    expect(moments.map((m) => m.said)).toEqual(['5 s', '60 s', '70 s, 10 s after key off']);
  });

  it('have limits that a move keeps', () => {
    for (const m of momentsOf(plan, { ...own, ...withKeyBack(own, true), ...withPress(own, button) }, name)) {
      expect(m.leastS, m.id).toBeLessThanOrEqual(m.tS);
      expect(m.mostS, m.id).toBeGreaterThanOrEqual(m.tS);
      expect(timeOf(moved(plan, own, 'keyOff', m.leastS - 50), 'keyOff')).toBeGreaterThan(own.startS);
    }
  });

  it('take along what comes after key-off, and make the strip longer', () => {
    const later = moved(plan, { ...own, ...withKeyBack(own, true) }, 'keyOff', 100);
    expect([later.keyOffS, later.doorS, later.keyBackS]).toEqual([100, 110, 115]);
    expect(later.untilS).toBeGreaterThanOrEqual(own.untilS + 40);
    expect(later.startS).toBe(own.startS);
  });

  it('keep their distances also where the move ends at a limit', () => {
    const early = moved(plan, own, 'keyOff', 0);
    expect((early.doorS ?? 0) - early.keyOffS).toBeCloseTo(10, 9);
    expect(early.keyOffS).toBeGreaterThan(own.startS);
  });

  it('stay in the order in which a hand can turn the key', () => {
    expect(moved(plan, own, 'door', 20).doorS).toBe(own.keyOffS);
    expect(moved(plan, own, 'start', 500).keyOffS).toBeGreaterThan(500);
    expect(moved(plan, own, 'start', 0).startS).toBeGreaterThan(own.keyOnS);
  });

  it('a strip nobody has touched is as long as the plan’s own', () => {
    expect(untilOf(plan, own)).toBeCloseTo(own.untilS, 9);
  });

  it('a strip grows with a longer stop, so that its end is seen', () => {
    const slow = changed('computer', { osS: 200 });
    // Key off, then 3 s + 3 s + 200 s.
    expect(untilOf(slow, { ...own, keyOffS: 80 })).toBeGreaterThan(80 + 206);
  });
});

describe('what happens by hand', () => {
  it('the door opens or stays shut', () => {
    expect(withDoor(own, false)).toEqual({ doorS: null });
    expect(withDoor({ ...own, doorS: null }, true)).toEqual({ doorS: own.keyOffS + 10 });
    expect(momentsOf(plan, { ...own, doorS: null }, name).map((m) => m.id)).toEqual(['start', 'keyOff']);
  });

  it('a button is pressed while the engine runs, moved, and not pressed', () => {
    const pressed = { ...own, ...withPress(own, button) };
    const at = pressed.presses[0]?.atS ?? 0;
    expect(at).toBeGreaterThan(own.startS);
    expect(at).toBeLessThan(own.keyOffS);
    expect(timeOf(moved(plan, pressed, 'press0', 90), 'press0')).toBe(90);
    expect(withoutPress(pressed, 0)).toEqual({ presses: [] });
  });
});
