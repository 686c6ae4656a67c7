import { describe, expect, it } from 'vitest';
import { buildGraph, type Graph } from '../../src/analysis/graph.ts';
import { Protection } from '../../src/analysis/protection.ts';
import { wireEnds } from '../../src/analysis/returns.ts';
import { natures } from '../../src/analysis/roles.ts';
import { type Bench, fused, ground } from '../rules/plans.ts';

/** What can flow into both ends of a wire, A, and by whom it is bounded. */
function ends(b: Bench, wire: string): { from: number; to: number; fromBy: string; toBy: string } {
  const graph = buildGraph(b.plan);
  const { from, to } = wireEnds(graph, new Protection(graph), natures(graph))(edgeOf(graph, b.wireId(wire)));
  return { from: from.maxA, to: to.maxA, fromBy: from.byName, toBy: to.byName };
}

function edgeOf(graph: Graph, wire: string): number {
  return graph.edges.findIndex((e) => e.wire?.id === wire);
}

const NONE = { to: 0, toBy: 'no source' };

// Every expected figure follows from the ratings on the plan alone: a fuse lets its rating pass for ever, a limited
// source its limit, and what is in parallel adds up (greatest flow = smallest cut, Ford and Fulkerson 1956, from memory).
describe('what protects a wire', () => {
  it('is the smallest fuse on a radial way', () => {
    const b = fused()
      .set('fuse', { ratingA: 15 })
      .part('branch', 'blade-fuse', 'seat', { ratingA: 5 })
      .part('load', 'usb-device', 'seat')
      .part('end', 'splice', 'seat')
      .wire('fuse.2', 'branch.1')
      .wire('branch.2', 'end.s');
    expect(ends(b, 'fuse.2>branch.1')).toEqual({ from: 15, fromBy: 'F1', ...NONE });
    expect(ends(b, 'branch.2>end.s')).toEqual({ from: 5, fromBy: 'F2', ...NONE });
  });

  it('is a fuse on the other way round for a wire between two feeds', () => {
    const b = fused()
      .set('fuse', { ratingA: 10 })
      .part('feed2', 'feed-30', 'dash', {}, { owner: 'vehicle' })
      .part('fuse2', 'blade-fuse', 'dash', { ratingA: 3 })
      .wire('feed2.out', 'fuse2.1')
      .wire('fuse.2', 'fuse2.2');
    expect(ends(b, 'fuse.2>fuse2.2')).toEqual({ from: 10, fromBy: 'F1', to: 3, toBy: 'F2' });
  });

  it('is 10 A behind two 5 A fuses in parallel', () => {
    const b = fused()
      .set('fuse', { ratingA: 5 })
      .part('second', 'blade-fuse', 'dash', { ratingA: 5 })
      .part('join', 'splice', 'dash')
      .part('end', 'splice', 'seat')
      .wire('feed30.out', 'second.1')
      .wire('fuse.2', 'join.s')
      .wire('second.2', 'join.s')
      .wire('join.s', 'end.s');
    expect(ends(b, 'join.s>end.s')).toEqual({ from: 10, fromBy: 'F1 + F2', ...NONE });
    // Each of the two feeds the fault at its own end alone; from the junction the other one comes.
    expect(ends(b, 'fuse.2>join.s')).toEqual({ from: 5, fromBy: 'F1', to: 5, toBy: 'F2' });
  });

  it('is the same at both ends in a ring, and the far end is fed the long way when a wire of the ring is gone', () => {
    const ring = fused()
      .set('fuse', { ratingA: 7.5 })
      .part('a', 'splice', 'dash')
      .part('b', 'splice', 'seat')
      .part('c', 'splice', 'desk')
      .wire('fuse.2', 'a.s')
      .wire('a.s', 'b.s')
      .wire('b.s', 'c.s')
      .wire('c.s', 'a.s');
    expect(ends(ring, 'b.s>c.s')).toEqual({ from: 7.5, fromBy: 'F1', to: 7.5, toBy: 'F1' });
    const open = ring.cut('c.s>a.s');
    expect(ends(open, 'b.s>c.s')).toEqual({ from: 7.5, fromBy: 'F1', ...NONE });
  });

  it('is both fuses together in the middle of a ring that a fuse feeds at either side', () => {
    const b = fused()
      .set('feed30', { donorFuseRead: false })
      .set('fuse', { ratingA: 10 })
      .part('second', 'blade-fuse', 'dash', { ratingA: 15 })
      .part('a', 'splice', 'dash')
      .part('b', 'splice', 'seat')
      .wire('feed30.out', 'second.1')
      .wire('fuse.2', 'a.s')
      .wire('second.2', 'b.s')
      .wire('a.s', 'b.s');
    expect(ends(b, 'a.s>b.s')).toEqual({ from: 10, fromBy: 'F1', to: 15, toBy: 'F2' });
    const doubled = b.wire('a.s', 'b.s', {}, 'twin');
    expect(ends(doubled, 'twin')).toEqual({ from: 25, fromBy: 'F1 + F2', to: 25, toBy: 'F1 + F2' });
    // The vehicle's own fuse ahead of both, once it has been read.
    expect(ends(doubled.set('feed30', { donorFuseRead: true, donorFuseA: 20 }), 'twin')).toEqual({ from: 20, fromBy: 'X3', to: 20, toBy: 'X3' });
  });

  it('adds feeds that two diodes join, and lets nothing back through them', () => {
    const b = fused()
      .set('fuse', { ratingA: 5 })
      .part('feed2', 'feed-15', 'dash', {}, { owner: 'vehicle' })
      .part('fuse2', 'blade-fuse', 'dash', { ratingA: 3 })
      .part('d1', 'diode', 'seat')
      .part('d2', 'diode', 'seat')
      .part('join', 'splice', 'seat')
      .part('end', 'splice', 'seat')
      .wire('feed2.out', 'fuse2.1')
      .wire('fuse.2', 'd1.A')
      .wire('fuse2.2', 'd2.A')
      .wire('d1.K', 'join.s')
      .wire('d2.K', 'join.s')
      .wire('join.s', 'end.s');
    expect(ends(b, 'join.s>end.s')).toEqual({ from: 8, fromBy: 'F1 + F2', ...NONE });
    expect(ends(b, 'fuse2.2>d2.A')).toEqual({ from: 3, fromBy: 'F2', ...NONE });
    expect(ends(b, 'd2.K>join.s')).toEqual({ from: 3, fromBy: 'F2', to: 5, toBy: 'F1' });
  });

  it('is nothing between a battery post and the first fuse, and an energy store is a source of its own', () => {
    const b = ground()
      .part('main', 'blade-fuse', 'bay', { ratingA: 20 })
      .part('store', 'capacitor', 'seat', { farad: 16.7, ratedV: 16 })
      .part('load', 'step-down', 'seat')
      .wire('battery.+', 'main.1')
      .wire('main.2', 'load.in')
      .wire('store.+', 'load.in');
    expect(ends(b, 'battery.+>main.1').from).toBe(Number.POSITIVE_INFINITY);
    // Towards the battery the fuse bounds it, towards the store nothing does.
    expect(ends(b, 'store.+>load.in')).toMatchObject({ from: Number.POSITIVE_INFINITY, to: 20, toBy: 'F1' });
    const small = b.set('store', { farad: 0.001, ratedV: 35 });
    expect(ends(small, 'store.+>load.in')).toMatchObject({ from: 0, to: 20 });
  });

  it('counts a donor fuse only when it has been read at the vehicle', () => {
    const b = ground().part('feed', 'feed-30', 'dash', { donorFuseA: 10 }, { owner: 'vehicle' }).part('end', 'splice', 'seat').wire('feed.out', 'end.s');
    expect(ends(b, 'feed.out>end.s').from).toBe(Number.POSITIVE_INFINITY);
    expect(ends(b.set('feed', { donorFuseRead: true }), 'feed.out>end.s').from).toBe(10);
  });

  it('begins anew behind a converter, with the converter’s own limit', () => {
    const b = fused()
      .set('fuse', { ratingA: 5 })
      .part('converter', 'step-down', 'seat', { limitMaxA: 8 })
      .part('end', 'splice', 'desk')
      .wire('fuse.2', 'converter.in')
      .wire('converter.out', 'end.s');
    expect(ends(b, 'converter.out>end.s')).toEqual({ from: 8, fromBy: 'T1', ...NONE });
    expect(ends(b, 'fuse.2>converter.in')).toEqual({ from: 5, fromBy: 'F1', ...NONE });
    // Not stated: one and a half times the rating.
    expect(ends(b.set('converter', { limitMaxA: 0, ratedA: 4 }), 'converter.out>end.s').from).toBe(6);
  });

  it('takes a resistor as a limit: the highest supply across it', () => {
    const b = fused()
      .set('fuse', { ratingA: 1 })
      .part('sense', 'resistor', 'dash', { ohm: 2200 })
      .part('end', 'splice', 'seat')
      .wire('fuse.2', 'sense.1')
      .wire('sense.2', 'end.s');
    expect(ends(b, 'sense.2>end.s').from).toBeCloseTo(16 / 2200, 6);
    expect(ends(b, 'sense.2>end.s').fromBy).toBe('R1');
  });

  it('takes a relay coil as a limit, too', () => {
    const b = fused().part('relay', 'relay', 'seat', { coilOhm: 80 }).part('end', 'splice', 'seat').wire('fuse.2', 'relay.86').wire('relay.85', 'end.s');
    expect(ends(b, 'relay.85>end.s').from).toBeCloseTo(16 / 80, 6);
  });

  it('passes contacts in any state they can reach, but never both throws of a changeover', () => {
    const b = ground()
      .part('feedA', 'feed-30', 'dash', {}, { owner: 'vehicle' })
      .part('feedB', 'feed-15', 'dash', {}, { owner: 'vehicle' })
      .part('fuseA', 'blade-fuse', 'dash', { ratingA: 5 })
      .part('fuseB', 'blade-fuse', 'dash', { ratingA: 7.5 })
      .part('relay', 'relay', 'seat')
      .part('end', 'splice', 'desk')
      .wire('feedA.out', 'fuseA.1')
      .wire('feedB.out', 'fuseB.1')
      .wire('fuseA.2', 'relay.87')
      .wire('fuseB.2', 'relay.87a')
      .wire('relay.30', 'end.s');
    // Either 5 A or 7.5 A, never 12.5 A.
    expect(ends(b, 'relay.30>end.s')).toEqual({ from: 7.5, fromBy: 'F2', ...NONE });
    // One throw alone cannot be fed from the other.
    expect(ends(b, 'fuseA.2>relay.87')).toEqual({ from: 5, fromBy: 'F1', ...NONE });
    expect(ends(b.cut('fuseB.2>relay.87a'), 'relay.30>end.s')).toEqual({ from: 5, fromBy: 'F1', ...NONE });
  });

  it('passes a changeover that grounds its load at rest, as for a motor', () => {
    const b = fused()
      .set('fuse', { ratingA: 5 })
      .part('relay', 'relay', 'dash')
      .part('end', 'splice', 'desk')
      .wire('fuse.2', 'relay.87')
      .wire('relay.87a', 'ground.31')
      .wire('relay.30', 'end.s');
    expect(ends(b, 'relay.30>end.s')).toEqual({ from: 5, fromBy: 'F1', ...NONE });
    expect(ends(b, 'relay.87a>ground.31')).toMatchObject({ from: 0, to: 0 });
  });

  it('lets no current come back out of the chassis', () => {
    // A reversed diode across a sensing LED: what other lines feed into ground does not come up through it.
    const b = fused()
      .set('fuse', { ratingA: 1 })
      .part('sense', 'resistor', 'dash', { ohm: 2200 })
      .part('opto', 'optocoupler', 'seat')
      .part('reverse', 'diode', 'seat')
      .part('bleed', 'resistor', 'seat', { ohm: 100 })
      .wire('fuse.2', 'sense.1')
      .wire('fuse.2', 'bleed.1')
      .wire('bleed.2', 'ground.31')
      .wire('sense.2', 'opto.A')
      .wire('opto.K', 'ground.31')
      .wire('reverse.K', 'opto.A')
      .wire('reverse.A', 'opto.K');
    expect(ends(b, 'sense.2>opto.A').from).toBeCloseTo(16 / 2200, 6);
    expect(ends(b, 'sense.2>opto.A').to).toBe(0);
  });
});

describe('what protects a ground wire', () => {
  const load = (): Bench =>
    fused()
      .set('fuse', { ratingA: 5 })
      .part('branch', 'blade-fuse', 'seat', { ratingA: 3 })
      .part('one', 'camera', 'seat')
      .part('two', 'camera', 'seat')
      .part('join', 'splice', 'seat')
      .wire('fuse.2', 'one.+')
      .wire('fuse.2', 'branch.1')
      .wire('branch.2', 'two.+')
      .wire('one.-', 'join.s')
      .wire('two.-', 'join.s')
      .wire('join.s', 'ground.31');

  it('is the largest of what can flow to the loads it brings back', () => {
    const b = load();
    expect(ends(b, 'two.->join.s')).toMatchObject({ from: 3, to: 3, fromBy: 'F2' });
    expect(ends(b, 'one.->join.s')).toMatchObject({ from: 5, to: 5, fromBy: 'F1' });
    expect(ends(b, 'join.s>ground.31')).toMatchObject({ from: 5, to: 5, fromBy: 'F1' });
  });

  it('counts every load of a ring for every wire of it', () => {
    const b = load().wire('two.-', 'one.-', {}, 'bridge');
    for (const wire of ['two.->join.s', 'one.->join.s', 'bridge']) expect(ends(b, wire), wire).toMatchObject({ from: 5, to: 5 });
  });

  it('counts a ring that closes over the body', () => {
    const b = load().part('seatGround', 'chassis-ground', 'seat').wire('two.-', 'seatGround.31', {}, 'second');
    expect(ends(b, 'second')).toMatchObject({ from: 5, to: 5 });
    expect(ends(b, 'two.->join.s')).toMatchObject({ from: 5, to: 5 });
  });

  it('counts a clamp that may fail as a short, whichever way round it stands', () => {
    for (const [hot, cold] of [
      ['K', 'A'],
      ['A', 'K'],
    ]) {
      const b = fused()
        .set('fuse', { ratingA: 4 })
        .part('clamp', 'surge-clamp', 'dash', { bidirectional: true })
        .wire('fuse.2', `clamp.${hot}`)
        .wire(`clamp.${cold}`, 'ground.31', {}, 'back');
      expect(ends(b, 'back')).toMatchObject({ from: 4, fromBy: 'F1' });
    }
  });

  it('is the converter’s limit or the feed’s fuse, whichever is more', () => {
    const b = fused()
      .set('fuse', { ratingA: 5 })
      .part('converter', 'step-down', 'seat', { limitMaxA: 8 })
      .part('load', 'touch-display', 'seat')
      .wire('fuse.2', 'converter.in')
      .wire('converter.out', 'load.5v')
      .wire('load.0v', 'converter.0v', {}, 'back')
      .wire('converter.gnd', 'ground.31', {}, 'main');
    expect(ends(b, 'back')).toMatchObject({ from: 8, fromBy: 'T1' });
    expect(ends(b, 'main')).toMatchObject({ from: 8 });
  });

  it('still sees a feed that is joined to a ground terminal by mistake', () => {
    const b = fused().set('fuse', { ratingA: 5 }).part('converter', 'step-down', 'seat').wire('fuse.2', 'converter.gnd', {}, 'wrong');
    expect(ends(b, 'wrong').from).toBe(5);
  });
});
