import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { readPlan } from '../../src/codec/index.ts';
import type { Id, Plan, Wire } from '../../src/plan/types.ts';

// A person wires outward from the vehicle's leads. On the way nothing is wrong that a clean plan does not have: at most
// three cards may stand there at any moment, folded advice counting as one, and never a hazard. Scenarios of our own.
const PLANS = ['mobile-library-van', 'mail-carrier', 'slope-groomer'];

describe('a clean plan while it is being drawn', () => {
  it.each(PLANS)('%s shows at most three cards after each wire, no hazard', (name) => {
    const plan = open(name);
    for (const [i, half] of steps(plan).entries()) {
      // Every third step, to spare time; the early ones, where most is missing, all.
      if (i > 14 && i % 3 !== 0) continue;
      const { cards } = computeResults(half).report;
      const said = cards.map((c) => `${c.level} ${c.code}: ${c.findings[0]!.what}`);
      const unfolded = cards.filter((c) => c.level !== 'advice').length;
      expect(unfolded + Math.min(1, cards.length - unfolded), `after ${i} wires:\n${said.join('\n')}`).toBeLessThanOrEqual(3);
      expect(said.filter((s) => s.startsWith('hazard'))).toEqual([]);
    }
  });
});

/** The plan after no wire, after one, after two, in the order in which a person comes by. */
function steps(plan: Plan): Plan[] {
  const vehicle = Object.values(plan.parts).filter((p) => p.owner === 'vehicle');
  const have = new Set<Id>(vehicle.map((p) => p.id));
  const done: Wire[] = Object.values(plan.wires).filter((w) => w.owner === 'vehicle');
  const open = Object.values(plan.wires).filter((w) => w.owner === 'build');
  const list = [cut(plan, have, done)];
  while (open.length > 0) {
    const [wire] = open.splice(nextWire(open, have), 1);
    done.push(wire!);
    have.add(wire!.from.part).add(wire!.to.part);
    list.push(cut(plan, have, done));
  }
  return list;
}

/** Between parts that are there, else one that brings a new part, else the first. */
function nextWire(open: readonly Wire[], have: ReadonlySet<Id>): number {
  const both = open.findIndex((w) => have.has(w.from.part) && have.has(w.to.part));
  const one = open.findIndex((w) => have.has(w.from.part) || have.has(w.to.part));
  return Math.max(0, both !== -1 ? both : one);
}

function cut(plan: Plan, parts: ReadonlySet<Id>, wires: readonly Wire[]): Plan {
  return {
    ...plan,
    parts: Object.fromEntries(Object.entries(plan.parts).filter(([id]) => parts.has(id))),
    wires: Object.fromEntries(wires.map((w) => [w.id, w])),
  };
}

function open(name: string): Plan {
  const read = readPlan(readFileSync(`public/plans/${name}.plan.json`, 'utf8'));
  if (!read.ok) throw new Error(`${name} cannot be read`);
  return read.plan;
}
