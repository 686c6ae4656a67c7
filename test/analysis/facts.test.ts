import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { makeFacts } from '../../src/analysis/facts.ts';
import type { Facts } from '../../src/analysis/factsTypes.ts';
import { type Bench, bench, fused } from '../rules/plans.ts';

function facts(b: Bench): { f: Facts; key: (at: string) => string } {
  const { filled, analysis } = computeResults(b.plan);
  return {
    f: makeFacts(filled, analysis),
    key: (at) => {
      const dot = at.indexOf('.');
      return `${b.id(at.slice(0, dot))}.${at.slice(dot + 1)}`;
    },
  };
}

describe('what rules may ask', () => {
  const b = bench();
  const { f, key } = facts(b);

  it('which sources can feed a place: through fuses and contacts, never through a converter or up out of ground', () => {
    const kinds = (at: string): string[] => f.sourcesFor(key(at)).map(({ source }) => source.kind);
    expect(kinds('relay.87')).toEqual(['feed']);
    expect(kinds('converter.out')).toEqual(['converter']);
    expect(kinds('opto.A')).toEqual(['feed']);
    expect(f.sourcesFor(key('opto.A'))[0]!.view.part.id).toBe(b.id('feed15'));
    // The transistor's collector: its own pin and, through the pull-up, the 3.3 V rail.
    expect(kinds('opto.C').sort()).toEqual(['pin', 'rail']);
    expect(f.sourcesFor('nowhere.1')).toEqual([]);
  });

  it('what a place reaches, with the way taken', () => {
    const reached = f.reach(key('feed30.out'), ['fuse', 'contact']);
    expect(reached.has(key('relay.87'))).toBe(true);
    expect(reached.get(key('relay.87'))!.map((s) => s.linkType)).toEqual(['wire', 'fuse', 'wire', 'contact']);
    expect(f.reach(key('feed30.out'), []).has(key('fuse.2'))).toBe(false);
    const barred = f.reach(key('feed30.out'), ['fuse', 'contact'], (view) => view.kind.kind === 'delay-off-relay');
    expect(barred.has(key('relay.87'))).toBe(false);
    // Asked twice it is the same; asked otherwise it is not.
    expect(f.reach(key('feed30.out'), ['fuse', 'contact'])).toBe(reached);
    expect(f.reach(key('feed30.out'), ['contact', 'fuse']).size).toBe(reached.size);
  });

  it('nets, their wires and terminals', () => {
    const net = f.netOf(key('fuse.2'));
    expect(f.netTerminals(net)).toContain(key('relay.30'));
    expect(f.netWires(net).map((w) => w.id)).toEqual([b.wireId('feed')]);
    expect(f.joinedTo(key('fuse.2'))).toEqual([key('relay.30')]);
    expect(f.isWired(key('fuse.2'))).toBe(true);
    expect(f.isWired(key('computer.40'))).toBe(false);
    expect(f.netOf('nowhere.1')).toBe(-1);
    expect(f.nominalV(net)).toBe(12);
    expect(f.isGround(f.netOf(key('converter.gnd')))).toBe(true);
    expect(f.at(key('relay.30'))!.terminal.label).toBe('30');
    expect(f.at('nowhere.1')).toBeNull();
  });

  it('readings by name, null where there is none', () => {
    expect(f.across(key('converter.out'), key('converter.0v'), 'RUN_CHARGING', 'typical')).toBeCloseTo(5.1, 1);
    expect(f.wireA(b.wireId('feed'), 'RUN_CHARGING', 'typical')).toBeGreaterThan(0.3);
    expect(f.deviceOn(b.id('relay'), 'hold', 'RETAIN', 'typical')).toBe(true);
    expect(f.volts('nowhere.1', 'ACC', 'low')).toBeNull();
    expect(f.designWireA(b.wireId('feed'))).toBeGreaterThan(0.5);
    // A state that this vehicle has not is not computed, not another one's.
    expect(f.reading('AUTO_CRANK', 'low').status).toBe('not computed');
    expect(f.volts(key('converter.out'), 'AUTO_CRANK', 'low')).toBeNull();
  });

  it('the surge a place sees: the clamp’s level, the dump where no clamp stands', () => {
    // Clamped inside the alternator: 35 V (ISO 16750-2, from memory), below the clamp's breakdown of 36.7 V.
    expect(f.seenSurgeV(key('converter.in'))).toBe(f.corners.dumpClampedV);
    const open = facts(bench('open', { centralClamping: 'unknown' }).without('clamp'));
    expect(open.f.seenSurgeV(open.key('converter.in'))).toBe(open.f.corners.dumpUnclampedV);
  });

  it('thresholds of the plan, else the rule’s own', () => {
    const own = facts(fused('threshold').threshold('feed-drop', 0.05));
    expect(own.f.threshold('feed-drop', 0.03)).toBe(0.05);
    expect(own.f.threshold('other', 0.03)).toBe(0.03);
  });
});
