import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply, invert, merge } from '../../src/plan/apply.ts';
import { copyItems, pasteClip } from '../../src/plan/copy.ts';
import * as edits from '../../src/plan/edits.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';
import { runs } from '../runs.ts';

type Step = readonly [kind: number, a: number, b: number, c: number];

const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];

/** Turns three numbers into some edit of the plan as it stands; null when there is nothing to do it to. */
function editFor(plan: Plan, [kind, a, b, c]: Step): Edit | null {
  const parts = Object.keys(plan.parts);
  const wires = Object.keys(plan.wires);
  const zones = edits.zoneOrder(plan);
  const part = pick(parts, a);
  const wire = pick(wires, a);
  const zone = pick(zones, b) ?? 'none';
  switch (kind) {
    case 0:
    case 1:
      return edits.addPart(plan, { kind: 'resistor', zone, x: a * 7, y: c * 3 }).edit;
    case 2:
    case 3: {
      const other = pick(parts, b);
      return part && other && part !== other
        ? edits.addWire(plan, { part, terminal: '1' }, { part: other, terminal: '2' }, c % 2 ? { lengthM: 1 + c / 10 } : {}).edit
        : null;
    }
    case 4:
      return part ? edits.movePart(plan, part, { zone, x: b - 50, y: c }) : null;
    case 5:
      return part ? edits.turnParts(plan, [part], c - 20) : null;
    case 6:
      return part ? edits.removeItems(plan, [part], wires.slice(0, c % 2)) : null;
    case 7:
      return part ? edits.setSetting(plan, part, 'ohm', c % 3 ? c : undefined) : null;
    case 8:
      return wire ? edits.splitWire(plan, wire, { kind: 'splice', zone, x: b, y: c }, 's', 's', c % 2 ? b / 10 : undefined).edit : null;
    case 9:
      return wire && part ? edits.spliceWire(plan, wire, { part, terminal: '1' }, { zone, x: b, y: c }).edit : null;
    case 10:
      return pasteClip(plan, copyItems(plan, parts.slice(a % 3, b % 5)), a, b).edit;
    case 11:
      return edits.addZone(plan, { name: `Zone ${a}`, kind: 'dash' }, b % (zones.length + 1)).edit;
    case 12:
      return edits.removeZone(plan, zone);
    case 13:
      return edits.setRun(plan, zone, pick(zones, c) ?? zone, 0.1 + a / 10).edit;
    case 14:
      return edits.setVehicle(plan, { batteryAh: 40 + a });
    default:
      return wire ? edits.setWire(plan, wire, { areaMm2: c % 2 ? 1.5 : undefined, number: b + 1 }) : null;
  }
}

const steps = fc.array(fc.tuple(fc.nat(15), fc.nat(99), fc.nat(99), fc.nat(99)), { minLength: 10, maxLength: 40 });

describe('random edit sequences', () => {
  it('invert back to the first plan, give no id twice, and merge into one edit', () => {
    let applied = 0;
    fc.assert(
      fc.property(steps, (list) => {
        const first = emptyPlan('random', {}, 'random');
        let plan = first;
        const done: Edit[] = [];
        const given = new Set<string>([...Object.keys(plan.zones), ...Object.keys(plan.runs)]);
        for (const step of list) {
          const edit = editFor(plan, step);
          if (!edit) continue;
          const next = apply(plan, JSON.parse(JSON.stringify(edit)) as Edit);
          if (!next.ok) continue;
          for (const change of edit.changes) {
            if (change.table === 'head' || change.before !== null) continue;
            expect(given.has(change.id)).toBe(false);
            given.add(change.id);
          }
          expect(next.plan.nextSerial).toBeGreaterThanOrEqual(plan.nextSerial);
          done.push(edit);
          plan = next.plan;
          applied += 1;
        }
        const whole = done.reduce<Edit>(merge, { intent: 'all', label: 'all', changes: [] });
        const atOnce = apply(first, whole);
        expect(atOnce.ok && atOnce.plan).toStrictEqual(plan);
        for (const edit of done.reverse()) {
          const back = apply(plan, invert(edit));
          if (!back.ok) throw new Error(back.reason);
          plan = back.plan;
        }
        expect(plan).toStrictEqual(first);
        expect(JSON.stringify(plan)).toBe(JSON.stringify(first));
      }),
      { numRuns: runs(200) },
    );
    // The law would hold emptily if every edit were refused.
    expect(applied).toBeGreaterThan(1000);
  });
});
