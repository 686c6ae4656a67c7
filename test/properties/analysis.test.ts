import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { Results } from '../../src/advise/types.ts';
import { wireBasics, wireFigures } from '../../src/analysis/figures.ts';
import { buildGraph } from '../../src/analysis/graph.ts';
import { BANDS, Solver, walk } from '../../src/analysis/readings.ts';
import { audit } from '../../src/circuit/index.ts';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import type { Id, Plan } from '../../src/plan/types.ts';
import { runs } from '../runs.ts';
import { anyPlan, resistivePlan } from './arbitraries.ts';

/** fast-check prints the seed and the smallest plan of a failure. */
const tried = { numRuns: runs(200), verbose: fc.VerbosityLevel.None };

/** Units of figures; nothing else stands beside a number. */
const UNITS = new Set(['V', 'A', 'W', 'Ω', 'F', 'pF', 'J', 'A²s', 'Ah', 'Hz', 's', 'ns', 'h', 'days', 'm', '°C', '%', '×', 'times', 'share', 'of its current']);

/** Every number of a value with the way to it; typed arrays are skipped. */
function* numbers(value: unknown, path = ''): Generator<[path: string, value: number]> {
  if (typeof value === 'number') yield [path, value];
  else if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value)) {
    for (const [key, inner] of Object.entries(value)) yield* numbers(inner, `${path}.${key}`);
  }
}

/** Where a figure may be NaN: what floats or is not computed has no volts. */
const MAY_BE_NAN = /^\.analysis\.(arrivals\.\d+\.typical\.\d+|pins\.\d+\.volts\.\d+|loads\.\d+\.(amps|watts)\.\d+|parked\.(buildA|days))$/;

function problemsOf(plan: Plan, results: Results): string[] {
  const found: string[] = [];
  for (const [path, value] of numbers(results)) if (Number.isNaN(value) && !MAY_BE_NAN.test(path)) found.push(`${path} is not a number`);
  for (const { rule, message } of results.report.crashed) found.push(`${rule} threw: ${message}`);
  for (const f of results.report.findings) {
    for (const s of [f.subject, ...f.related]) {
      const there = s.kind === 'part' ? plan.parts[s.id] : s.kind === 'wire' ? plan.wires[s.id] : s.id === plan.id;
      if (!there) found.push(`${f.rule} speaks of ${s.kind} ${s.id}`);
    }
    for (const text of [f.what, f.todo]) if (!/^\S.*[.?!]$/s.test(text) || /NaN|undefined|null|\bInfinity/.test(text)) found.push(`${f.rule} says "${text}"`);
    for (const g of f.figures)
      if (!Number.isFinite(g.value) || !/\S/.test(g.label) || !UNITS.has(g.unit)) found.push(`${f.rule} gives "${g.label}" as ${g.value} "${g.unit}"`);
  }
  for (const r of [...results.analysis.readings, results.analysis.design]) {
    if (r.status === 'not computed' && [...r.terminalV, ...r.wireA, ...r.elementA].some((x) => !Number.isNaN(x)))
      found.push(`${r.state} ${r.band} gives figures though it is not computed`);
    if (r.status === 'solved' && [...r.wireA, ...r.elementA].some((x) => !Number.isFinite(x))) found.push(`${r.state} ${r.band} has a current that is none`);
  }
  return found;
}

/** Kirchhoff's laws at every reading of a filled plan, solved anew; gives the number of readings. */
function tryKirchhoff(filled: Plan): number {
  const graph = buildGraph(filled);
  const solver = new Solver(graph, wireFigures(graph, wireBasics(graph)));
  let readings = 0;
  for (const band of BANDS) {
    for (const [state, settled] of walk(solver, band).settledAt) {
      if (settled.solution.status !== 'solved') continue;
      readings++;
      const a = audit(solver.network, solver.elementsOf({ state, band }, settled.states), settled.solution);
      expect(a.worstKclA, `current into ${a.worstKclNode}, ${state} ${band}`).toBeLessThanOrEqual(1e-9 + 1e-9 * a.largestA);
      expect(a.powerImbalanceW, `power, ${state} ${band}`).toBeLessThanOrEqual(1e-6 * a.grossPowerW + 1e-9);
    }
  }
  return readings;
}

describe('any plan', () => {
  it('is computed without a throw: figures are figures, findings whole sentences about what is there, no rule fails; it obeys Kirchhoff and keeps its power at every reading', () => {
    let readings = 0;
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const results = computeResults(plan);
        expect(problemsOf(plan, results)).toEqual([]);
        readings += tryKirchhoff(results.filled);
      }),
      tried,
    );
    expect(readings).toBeGreaterThan(20 * tried.numRuns);
  }, 3_600_000);

  it('has the same results whatever was computed before, from its file, and in whatever order its rows are stored', () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (plan, other) => {
        const cold = computeResults(structuredClone(plan));
        // The same parts once more in another plan: what is kept for a part must not carry anything of the plan over.
        computeResults({ ...other, parts: { ...other.parts, ...sameZones(plan, other) } });
        expectSame(computeResults(plan), cold);
        const read = readPlan(writePlan(plan));
        if (!read.ok) throw new Error(read.problems.map((p) => `${p.where}: ${p.what}`).join('\n'));
        expect(read.plan).toStrictEqual(plan);
        const reversed: Plan = {
          ...read.plan,
          zones: backwards(read.plan.zones),
          runs: backwards(read.plan.runs),
          parts: backwards(read.plan.parts),
          wires: backwards(read.plan.wires),
        };
        expectSame(computeResults(reversed), cold);
      }),
      tried,
    );
  });
});

describe('sources and resistances', () => {
  it('lose no less in a wire that is made longer', () => {
    let compared = 0;
    fc.assert(
      fc.property(resistivePlan, fc.nat(99), fc.double({ min: 1.1, max: 10, noNaN: true }), ({ plan, wires }, pick, times) => {
        const id = wires[pick % Math.max(1, wires.length)];
        if (id === undefined) return;
        const wire = plan.wires[id]!;
        const before = computeResults(plan);
        const after = computeResults({ ...plan, wires: { ...plan.wires, [id]: { ...wire, lengthM: Math.min(99, wire.lengthM! * times) } } });
        for (const [k, reading] of before.analysis.readings.entries()) {
          const [a, b] = [dropOf(before, k, id), dropOf(after, k, id)];
          if (reading.status !== 'solved' || Number.isNaN(a) || Number.isNaN(b)) continue;
          compared++;
          // Temperatures follow the current: a longer wire carries less and runs a little cooler, so a trace is allowed for.
          expect(b, `${id} in ${reading.state} ${reading.band}`).toBeGreaterThanOrEqual(a * (1 - 1e-3) - 1e-9);
        }
      }),
      tried,
    );
    expect(compared).toBeGreaterThan(tried.numRuns);
  });
});

describe('a fuse', () => {
  it('taken out and bridged never takes a finding of an unfused tap away, and brings one where it was the only fuse', () => {
    let bridged = 0;
    let brought = 0;
    fc.assert(
      fc.property(anyPlan, fc.nat(99), (plan, pick) => {
        const fuses = Object.values(plan.parts).filter((p) => p.kind === 'blade-fuse');
        const fuse = fuses[pick % Math.max(1, fuses.length)];
        if (!fuse) return;
        const at = (terminal: string): [Id, 'from' | 'to'][] =>
          Object.values(plan.wires).flatMap((w) =>
            (['from', 'to'] as const)
              .filter((side) => w[side].part === fuse.id && w[side].terminal === terminal)
              .map((side): [Id, 'from' | 'to'] => [w.id, side]),
          );
        const one = at('1');
        const two = at('2');
        // The simple case: one wire in, one wire out, to two other parts.
        if (one.length !== 1 || two.length !== 1 || one[0]![0] === two[0]![0]) return;
        const far = ([id, side]: [Id, 'from' | 'to']) => plan.wires[id]![side === 'from' ? 'to' : 'from'];
        const [a, b] = [far(one[0]!), far(two[0]!)];
        if (a.part === fuse.id || b.part === fuse.id || (a.part === b.part && a.terminal === b.terminal)) return;
        const { [one[0]![0]]: _first, [two[0]![0]]: second, ...rest } = plan.wires;
        const { [fuse.id]: _fuse, ...parts } = plan.parts;
        const joined = { ...second!, from: a, to: b, owner: 'build' as const };
        const without: Plan = { ...plan, parts, wires: { ...rest, [joined.id]: joined } };
        bridged++;
        const whole = computeResults(plan);
        const before = unfused(whole);
        const after = unfused(computeResults(without));
        for (const tap of before) if (parts[tap]) expect([...after], `tap ${tap}`).toContain(tap);
        const was = whole.analysis.fuses[fuse.id];
        if (was?.unfusedM !== null && was !== undefined && after.size > before.size) brought++;
      }),
      tried,
    );
    expect(bridged).toBeGreaterThan(tried.numRuns / 10);
    expect(brought).toBeGreaterThan(0);
  });
});

/** Results say the same; where the quick look is not content, the slow one says what differs. */
function expectSame(results: Results, as: Results): void {
  if (!isDeepStrictEqual(results, as)) expect(results).toEqual(as);
}

/** Parts that keep their zone's name in another plan. */
function sameZones(plan: Plan, other: Plan): Plan['parts'] {
  return Object.fromEntries(Object.entries(plan.parts).filter(([id, p]) => other.zones[p.zone] && !other.parts[id]));
}

function backwards<T>(table: Readonly<Record<Id, T>>): Record<Id, T> {
  return Object.fromEntries(Object.entries(table).reverse());
}

function dropOf(results: Results, reading: number, wire: Id): number {
  const { index, readings } = results.analysis;
  const w = results.filled.wires[wire]!;
  const at = (end: { part: Id; terminal: string }): number => readings[reading]!.terminalV[index.terminals.indexOf(`${end.part}.${end.terminal}`)]!;
  return Math.abs(at(w.from) - at(w.to));
}

function unfused(results: Results): Set<Id> {
  return new Set(results.report.findings.filter((f) => f.rule === 'tap-without-fuse').map((f) => f.subject.id));
}
