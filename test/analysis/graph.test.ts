import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadedTogether, wireBasics, wireFigures } from '../../src/analysis/figures.ts';
import { buildGraph, type Graph, other, regraph } from '../../src/analysis/graph.ts';
import { Islands } from '../../src/analysis/islands.ts';
import { type Arc, maxFlow } from '../../src/analysis/maxflow.ts';
import { wireC, wireOhm } from '../../src/analysis/network.ts';
import { pathBack, treeFrom } from '../../src/analysis/paths.ts';
import { natures } from '../../src/analysis/roles.ts';
import { planningLimit } from '../../src/trade/ampacity.ts';
import { nonsensePlan } from '../properties/arbitraries.ts';
import { type Bench, bench, fused, ground } from '../rules/plans.ts';
import { runs } from '../runs.ts';

const natureAt = (b: Bench, graph: Graph, at: string) => {
  const [part, terminal] = at.split('.') as [string, string];
  return natures(graph)[graph.net[graph.indexOf.get(`${b.id(part)}.${terminal}`)!]!]!;
};

describe('nets', () => {
  it('are joined by wires and joins alone: a fuse, a contact and a resistor part them', () => {
    const b = bench();
    const graph = buildGraph(b.plan);
    const net = (at: string): number => {
      const [part, terminal] = at.split('.') as [string, string];
      return graph.net[graph.indexOf.get(`${b.id(part)}.${terminal}`)!]!;
    };
    expect(net('fuse.2')).toBe(net('relay.30'));
    expect(net('fuse.1')).not.toBe(net('fuse.2'));
    expect(net('relay.30')).not.toBe(net('relay.87'));
    expect(net('sense.1')).not.toBe(net('sense.2'));
    expect(net('converter.gnd')).toBe(net('computer.6'));
    expect(net('computer.2')).toBe(net('computer.4'));
  });

  it('join both conductors of a cable', () => {
    const b = ground('cable').part('computer', 'computer', 'seat').part('reader', 'usb-device', 'desk').wire('computer.usb1', 'reader.usb');
    const graph = buildGraph(b.plan);
    const net = (key: string): number => graph.net[graph.indexOf.get(key)!]!;
    expect(net(`${b.id('computer')}.usb1~0`)).toBe(net(`${b.id('reader')}.usb~0`));
    expect(net(`${b.id('computer')}.usb1`)).not.toBe(net(`${b.id('computer')}.usb1~0`));
  });

  it('know what they are for', () => {
    const b = bench();
    const graph = buildGraph(b.plan);
    expect(natureAt(b, graph, 'fuse.1')).toEqual({ role: 'supply', nominalV: 12 });
    expect(natureAt(b, graph, 'converter.in')).toEqual({ role: 'supply', nominalV: 12 });
    expect(natureAt(b, graph, 'converter.out')).toEqual({ role: 'rail5', nominalV: 5 });
    expect(natureAt(b, graph, 'pull.2')).toEqual({ role: 'rail3', nominalV: 3.3 });
    expect(natureAt(b, graph, 'converter.gnd')).toEqual({ role: 'ground', nominalV: 0 });
    expect(natureAt(b, graph, 'opto.C')).toEqual({ role: 'signal', nominalV: null });
    const b24 = bench('24', { systemV: 24 });
    expect(natureAt(b24, buildGraph(b24.plan), 'converter.in').nominalV).toBe(24);
  });

  it('are no ground for a clamp’s anode alone: across a coil it ends at the driver', () => {
    const b = bench()
      .part('k', 'relay', 'seat')
      .part('driver', 'low-side-driver', 'seat')
      .part('across', 'surge-clamp', 'seat')
      .wire('relay.87', 'k.86')
      .wire('k.85', 'driver.out')
      .wire('across.K', 'k.86')
      .wire('across.A', 'k.85');
    expect(natureAt(b, buildGraph(b.plan), 'k.85')).toEqual({ role: 'signal', nominalV: null });
    expect(natureAt(b, buildGraph(b.plan), 'clamp.A')).toEqual({ role: 'ground', nominalV: 0 });
  });

  it('keep a rail’s name behind a diode, but not against it', () => {
    const b = fused('diode').part('d', 'diode', 'seat').part('e', 'diode', 'seat').wire('fuse.2', 'd.A').wire('fuse.2', 'e.K');
    const graph = buildGraph(b.plan);
    expect(natureAt(b, graph, 'd.K')).toEqual({ role: 'supply', nominalV: 12 });
    expect(natureAt(b, graph, 'e.A').role).not.toBe('supply');
  });

  it('are the same when values are filled in, and built anew when more than values change', () => {
    const b = bench();
    const graph = buildGraph(b.plan);
    const filled = { ...b.plan, parts: { ...b.plan.parts, [b.id('fuse')]: { ...b.plan.parts[b.id('fuse')]!, settings: { ratingA: 10 } } } };
    const again = regraph(graph, filled);
    expect(again.net).toBe(graph.net);
    expect(again.edges.find((e) => e.view?.part.id === b.id('fuse'))!.link!.ratingA).toBe(10);
    expect(again).toEqual(buildGraph(filled));
    const other2 = bench().cut('tap').plan;
    expect(regraph(graph, other2)).toEqual(buildGraph(other2));
  });
});

describe('ways from the sources', () => {
  it('are the shortest, and lead back edge by edge', () => {
    const b = fused('ways')
      .part('a', 'splice', 'dash')
      .part('c', 'splice', 'dash')
      .part('end', 'splice', 'seat')
      .wire('fuse.2', 'a.s', { lengthM: 1 }, 'one')
      .wire('a.s', 'end.s', { lengthM: 1 }, 'two')
      .wire('fuse.2', 'c.s', { lengthM: 0.5 }, 'three')
      .wire('c.s', 'end.s', { lengthM: 3 }, 'four');
    const graph = buildGraph(b.plan);
    const basics = wireBasics(graph);
    const from = graph.indexOf.get(`${b.id('feed30')}.out`)!;
    const tree = treeFrom(graph, [from], (e) => (graph.edges[e]!.wire ? basics.get(graph.edges[e]!.wire!.id)!.lengthM : 0));
    const end = graph.indexOf.get(`${b.id('end')}.s`)!;
    expect(tree.cost[end]).toBeCloseTo(0.12 + 2, 9);
    expect(tree.root[end]).toBe(from);
    expect(pathBack(graph, tree, end).map((e) => graph.edges[e]!.wire?.id ?? graph.edges[e]!.link!.type)).toEqual([
      b.wireId('two'),
      b.wireId('one'),
      'fuse',
      b.wireId('tap'),
    ]);
    expect(tree.via[graph.indexOf.get('0')!]).toBe(-1);
  });
});

describe('figures of a wire', () => {
  it('take the hottest and coldest zone on its way', () => {
    const b = ground('zones').part('a', 'splice', 'bay').part('b', 'splice', 'seat').wire('a.s', 'b.s', {}, 'w').zone('dash', { maxC: 95 });
    const basics = wireBasics(buildGraph(b.plan)).get(b.wireId('w'))!;
    // Engine bay to dash 1.4 m, dash to seat 2.2 m, 0.3 m at each end.
    expect(basics.lengthM).toBeCloseTo(4.2, 9);
    expect(basics.zones).toEqual(['z1', 'z2', 'z3']);
    expect(basics.zoneMaxC).toBe(105);
  });

  it('warm the conductor by 45 K at its limit, by the square of the current', () => {
    const b = fused('warm').part('end', 'splice', 'dash').wire('fuse.2', 'end.s', { lengthM: 1, areaMm2: 1 }, 'w');
    const graph = buildGraph(b.plan);
    const basics = wireBasics(graph);
    const { baseA } = planningLimit(1, 105, 70, 1);
    const at = (amp: number) => wireFigures(graph, basics, new Map([[b.wireId('w'), amp]])).get(b.wireId('w'))!;
    expect(at(0).riseK).toBe(0);
    expect(at(baseA).riseK).toBeCloseTo(45, 9);
    expect(at(baseA / 2).riseK).toBeCloseTo(45 / 4, 9);
    expect(wireC(at(baseA / 2), 'low')).toBeCloseTo(70 + 45 / 4, 9);
    expect(wireC(at(baseA / 2), 'typical')).toBe(20);
    // 1 mm2: 19.5 mohm/m at 20 degrees C (IEC 60228 class 5, read), two crimps of 2 mohm.
    expect(wireOhm(graph, b.wireId('w'), at(0), 20)).toBeCloseTo(0.0195 + 0.004, 6);
    expect(wireOhm(graph, b.wireId('w'), at(0), 120)).toBeCloseTo(0.0195 * 1.393 + 0.004, 6);
  });

  it('count as loaded what carries more than 30 % of its limit on the same leg', () => {
    const b = ground('bundle');
    for (const i of [0, 1, 2, 3]) b.part(`a${i}`, 'splice', 'dash').part(`b${i}`, 'splice', 'seat').wire(`a${i}.s`, `b${i}.s`, { areaMm2: 1 }, `w${i}`);
    const graph = buildGraph(b.plan);
    const { baseA, kT } = planningLimit(1, 105, 70, 1);
    const amps = new Map([0.31, 0.31, 0.31, 0.29].map((share, i) => [b.wireId(`w${i}`), share * baseA * kT]));
    const together = loadedTogether(graph, wireBasics(graph), (id) => amps.get(id) ?? 0);
    expect([0, 1, 2, 3].map((i) => together.get(b.wireId(`w${i}`)))).toEqual([3, 3, 3, 3]);
  });
});

describe('the greatest flow', () => {
  const arcs = fc.array(fc.record({ from: fc.nat(5), to: fc.nat(5), cap: fc.integer({ min: 0, max: 20 }) }), { maxLength: 14 });

  it('is the smallest cut, found by trying every one', () => {
    fc.assert(
      fc.property(arcs, (list) => {
        const tagged: Arc[] = list.map((a, tag) => ({ ...a, tag }));
        const { flow, cut } = maxFlow(6, tagged, 0, 5);
        let least = Number.POSITIVE_INFINITY;
        for (let side = 0; side < 16; side++) {
          // Node 0 on the near side, node 5 on the far one, the four others either way.
          const near = (n: number): boolean => n === 0 || (n !== 5 && (side >> (n - 1)) % 2 === 1);
          least = Math.min(
            least,
            list.filter((a) => near(a.from) && !near(a.to)).reduce((sum, a) => sum + a.cap, 0),
          );
        }
        expect(flow).toBeCloseTo(least, 9);
        expect(cut.reduce((sum, tag) => sum + tagged[tag]!.cap, 0)).toBeCloseTo(flow, 9);
      }),
      { numRuns: runs(300) },
    );
  });

  it('is without limit where an uncapped way exists', () => {
    const endless = Number.POSITIVE_INFINITY;
    expect(
      maxFlow(
        3,
        [
          { from: 0, to: 1, cap: endless, tag: 0 },
          { from: 1, to: 2, cap: endless, tag: 1 },
        ],
        0,
        2,
      ).flow,
    ).toBe(endless);
    expect(maxFlow(2, [], 0, 0).flow).toBe(endless);
  });
});

describe('islands', () => {
  it('hold what the passed edges join, and a bridge is an edge without a way round', () => {
    let bridges = 0;
    fc.assert(
      fc.property(nonsensePlan, fc.nat(99), (plan, pick) => {
        const graph = buildGraph(plan);
        if (graph.edges.length === 0) return;
        const passes = (e: number): boolean => graph.edges[e]!.link === null || graph.edges[e]!.link!.type === 'join';
        const islands = new Islands(graph, passes);
        for (let n = 0; n < graph.nodes.length; n++) expect(islands.of[n] === islands.of[0]).toBe(graph.net[n] === graph.net[0]);
        const e = pick % graph.edges.length;
        if (!passes(e)) return;
        const { a, b } = graph.edges[e]!;
        const side = reached(graph, a, (x) => x !== e && passes(x));
        const halves = islands.split(e);
        expect(halves === null).toBe(side.has(b));
        if (!halves) return;
        bridges++;
        const inA = (n: number): boolean => (islands.timeOf(n) >= halves.a.from && islands.timeOf(n) < halves.a.to) === halves.a.inside;
        for (let n = 0; n < graph.nodes.length; n++) if (islands.of[n] === islands.of[a]) expect(inA(n)).toBe(side.has(n));
        const isGround = (n: number): boolean => graph.nodes[n] === '0' || graph.nodes[n]!.startsWith('chassis:');
        expect(halves.a.grounded).toBe([...side].some(isGround));
        expect(halves.b.grounded).toBe([...reached(graph, b, (x) => x !== e && passes(x))].some(isGround));
      }),
      { numRuns: runs(200) },
    );
    expect(bridges).toBeGreaterThan(20);
  });
});

function reached(graph: Graph, from: number, passes: (edge: number) => boolean): Set<number> {
  const seen = new Set([from]);
  for (const node of seen) for (const e of graph.at[node]!) if (passes(e)) seen.add(other(graph.edges[e]!, node));
  return seen;
}
