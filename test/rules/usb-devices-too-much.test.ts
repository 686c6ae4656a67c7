import { describe, expect, it } from 'vitest';
import { repairsFor } from '../../src/advise/index.ts';
import { applyOrThrow } from './applied.ts';
import { clean, compute, flagged, quiet, repairsOf } from './harness.ts';
import { bench, withHub } from './plans.ts';

const RULE = 'usb-devices-too-much';
/** The bench with devices of these greatest currents on its ports. */
const ports = (...amps: number[]) =>
  amps.reduce(
    (b, a, i) => b.part(`d${i}`, 'usb-device', 'seat', { typA: Math.min(a, 0.2), peakA: a }).wire(`computer.usb${i + 1}`, `d${i}.usb`, { lengthM: 1 }),
    bench(),
  );

describe('USB devices take more than the board gives', () => {
  // Board maker's supply chapter (read): 1.2 A for all ports.
  it('touch 0.45 A, modem 1.0 A, sound 0.10 A: 1.55 A', () => {
    const b = ports(0.45, 1, 0.1);
    flagged(b, RULE, {
      level: 'fault',
      subject: b.id('computer'),
      figures: { 'all ports together': 1.55, 'board gives': 1.2 },
      says: ['1.6 A', '1.2 A'],
      repairs: 1,
    });
  });

  it('either side of 1.2 A', () => {
    clean(ports(0.5, 0.5, 0.19), RULE);
    const b = ports(0.5, 0.5, 0.22);
    flagged(b, RULE, { level: 'fault', subject: b.id('computer') });
  });

  it('the newest class gives 1.6 A', () => {
    clean(ports(0.5, 0.5, 0.5).set('computer', { board: 'newest' }), RULE);
  });

  it('one plug: 0.5 A of USB 2 is in order, 0.6 A is worth a word, 1 A is too much for USB 3', () => {
    clean(ports(0.5), RULE);
    const some = ports(0.6);
    flagged(some, RULE, { level: 'advice', subject: some.id('computer'), says: ['port 1'] });
    const much = ports(1);
    flagged(much, RULE, { level: 'fault', subject: much.id('computer') });
  });

  // The worked case again: its modem on the hub's own 5 V leaves 0.55 A for the board.
  it('behind a hub with its own 5 V nothing counts, behind one without everything does', () => {
    const devices = (b: ReturnType<typeof bench>, ...ends: string[]) =>
      [0.45, 1, 0.1].reduce((plan, peakA, i) => plan.part(`d${i}`, 'usb-device', 'seat', { typA: 0.1, peakA }).wire(ends[i]!, `d${i}.usb`, { lengthM: 1 }), b);
    clean(devices(withHub(bench()), 'computer.usb2', 'hub.d1', 'computer.usb3'), RULE);
    clean(devices(withHub(bench()), 'hub.d1', 'hub.d2', 'hub.d3'), RULE);
    const bus = () => bench().part('hub', 'usb-hub', 'seat', { ownSupply: false }).wire('computer.usb1', 'hub.up', { lengthM: 0.5 });
    // 1.55 A and the hub's own 0.1 A, all on one plug.
    const b = devices(bus(), 'hub.d1', 'hub.d2', 'hub.d3');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'all ports together': 1.65 } });
    // Four of 0.095 A and the hub's own 0.1 A: 0.48 A on its plug; four of 0.1 A are 0.5 A; its own 0.15 A beside them are too much.
    const small = (peakA: number, ownA: number) =>
      [1, 2, 3, 4].reduce(
        (plan, k) => plan.part(`d${k}`, 'usb-device', 'seat', { typA: 0.05, peakA }).wire(`hub.d${k}`, `d${k}.usb`, { lengthM: 1 }),
        bus().set('hub', { ownA }),
      );
    clean(small(0.095, 0.1), RULE);
    const over = small(0.095, 0.15);
    flagged(over, RULE, { level: 'advice', subject: over.id('computer'), says: ['port 1'], repairs: 1 });
  });

  // USB 2.0, 7.2.1: five unit loads of 0.1 A at a port of a hub with a supply of its own; USB 3, 11.4: six of 0.15 A.
  it('a hub with its own 5 V: 0.5 A at a USB 2 port, 0.9 A at a USB 3 port, 1.5 A at a charging port', () => {
    const on = (peakA: number, portClass: string) =>
      withHub(bench(), { backfeed: 'no', portClass }).part('d', 'usb-device', 'seat', { typA: 0.1, peakA }).wire('hub.d2', 'd.usb', { lengthM: 1 });
    clean(on(0.5, 'usb2'), RULE);
    const two = on(0.52, 'usb2');
    flagged(two, RULE, { level: 'fault', subject: two.id('hub'), figures: { 'to one plug': 0.52, 'one port gives': 0.5 }, says: ['Port 2'], repairs: 1 });
    clean(on(0.9, 'usb3'), RULE);
    const three = on(0.92, 'usb3');
    flagged(three, RULE, { level: 'fault', subject: three.id('hub'), figures: { 'one port gives': 0.9 }, repairs: 1 });
    clean(on(1.4, 'charging'), RULE);
  });

  it('what nobody has said of a hub is taken for USB 2, in a milder tone up to what USB 3 gives', () => {
    const on = (peakA: number) => withHub(bench(), { backfeed: 'no' }).part('d', 'usb-device', 'seat', { typA: 0.1, peakA }).wire('hub.d1', 'd.usb');
    clean(on(0.5), RULE);
    const some = on(0.6);
    flagged(some, RULE, { level: 'advice', subject: some.id('hub'), says: ['assumed'], repairs: 1 });
    const much = on(1);
    flagged(much, RULE, { level: 'fault', subject: much.id('hub'), repairs: 1 });
  });

  // USB 2.0, 7.2.1: one unit load, 0.1 A, at a port of a hub that lives on its host's port; USB 3: 0.15 A.
  it('a hub without a supply gives each device 0.1 A, or 0.15 A as USB 3', () => {
    const on = (peakA: number, settings = {}) =>
      bench()
        .part('hub', 'usb-hub', 'seat', { ownSupply: false, ...settings })
        .wire('computer.usb1', 'hub.up', { lengthM: 0.5 })
        .part('d', 'usb-device', 'seat', { typA: 0.05, peakA })
        .wire('hub.d1', 'd.usb', { lengthM: 1 });
    clean(on(0.1), RULE);
    const two = on(0.12);
    flagged(two, RULE, { level: 'advice', subject: two.id('hub'), figures: { 'to one plug': 0.12, 'one port gives': 0.1 }, says: ['refuse'], repairs: 2 });
    clean(on(0.15, { portClass: 'usb3' }), RULE);
    const three = on(0.17, { portClass: 'usb3' });
    flagged(three, RULE, { level: 'advice', subject: three.id('hub'), figures: { 'one port gives': 0.15 }, repairs: 2 });
  });

  it('has nothing to say of a hub on which nothing hangs', () => {
    expect(compute(withHub(bench())).report.findings.filter((f) => f.rule === RULE)).toEqual([]);
  });

  it('has nothing to say without a USB plug', () => {
    quiet(bench(), RULE);
  });

  it('moves the hungriest to a new hub with a fused 5 V of its own, and asks first', () => {
    const b = ports(0.45, 1, 0.1);
    const [offer, ...more] = repairsOf(b, RULE);
    expect(more).toEqual([]);
    expect(offer).toMatchObject({ safe: false });
    expect(offer!.title).toContain('USB 2');
    const next = applyOrThrow(b.plan, offer!.edit);
    const { parts, wires } = next;
    const hub = Object.values(parts).find((p) => p.kind === 'usb-hub')!;
    expect(hub.settings).toEqual({ backfeed: 'no', portClass: 'charging' });
    const ends = Object.values(wires).map((w) => [w.from, w.to].map((e) => `${e.part}.${e.terminal}`));
    expect(ends).toContainEqual([`${hub.id}.d1`, `${b.id('d1')}.usb`]);
    expect(ends).toContainEqual([`${b.id('computer')}.usb2`, `${hub.id}.up`]);
    expect(ends.some(([from, to]) => to === `${hub.id}.5v` && parts[from!.split('.')[0]!]?.kind === 'blade-fuse')).toBe(true);
    expect(ends).toContainEqual([`${hub.id}.0v`, `${b.id('converter')}.0v`]);
    const faults = (plan: typeof next) =>
      compute(plan)
        .report.findings.filter((f) => f.level !== 'advice')
        .map((f) => f.rule);
    expect(faults(b.plan)).toEqual([RULE]);
    expect(faults(next)).toEqual([]);
  });

  it('uses the hub that is there without asking, where it lets nothing back', () => {
    const b = (backfeed: string) =>
      withHub(bench(), { backfeed, portClass: 'charging' })
        .part('modem', 'usb-device', 'seat', { typA: 0.2, peakA: 1 })
        .wire('computer.usb2', 'modem.usb', { lengthM: 1 });
    const there = b('no');
    flagged(there, RULE, { level: 'fault', subject: there.id('computer'), repairs: 1 });
    expect(repairsOf(there, RULE)[0]).toMatchObject({ safe: true });
    expect(repairsOf(b('unknown'), RULE).every((r) => !r.safe)).toBe(true);
  });

  // The worked case on one hub that lives on its plug: another hub would change nothing, a supply for this one does.
  it('gives an overloaded hub without a supply a fused 5 V of its own', () => {
    const b = [0.45, 0.4, 0.3].reduce(
      (plan, peakA, i) => plan.part(`d${i}`, 'usb-device', 'seat', { typA: 0.1, peakA }).wire(`hub.d${i + 1}`, `d${i}.usb`, { lengthM: 1 }),
      bench().part('hub', 'usb-hub', 'seat', { ownSupply: false }).wire('computer.usb1', 'hub.up', { lengthM: 0.5 }),
    );
    const results = compute(b);
    const finding = results.report.findings.find((f) => f.rule === RULE && f.subject.id === b.id('computer'))!;
    const offers = repairsFor(b.plan, results, finding);
    expect(offers.map((o) => o.safe)).toEqual([false]);
    expect(offers[0]!.title).toMatch(/Give .*hub.* a fused 5 V of its own/);
    const next = applyOrThrow(b.plan, offers[0]!.edit);
    expect(next.parts[b.id('hub')]!.settings).toMatchObject({ ownSupply: true, backfeed: 'no' });
    expect(Object.values(next.parts).filter((p) => p.kind === 'usb-hub')).toHaveLength(1);
    expect(compute(next).report.findings.filter((f) => f.level !== 'advice')).toEqual([]);
  });

  it('plugs a device into the computer itself where its one port is asked for too much, not where all of them are', () => {
    const b = (peakA: number) =>
      bench()
        .part('hub', 'usb-hub', 'seat', { ownSupply: false })
        .wire('computer.usb1', 'hub.up', { lengthM: 0.5 })
        .part('d', 'usb-device', 'seat', { typA: 0.1, peakA })
        .wire('hub.d1', 'd.usb', { lengthM: 1 });
    const titles = (peakA: number) => {
      const results = compute(b(peakA));
      const finding = results.report.findings.find((f) => f.rule === RULE && f.subject.id === b(peakA).id('computer'))!;
      return repairsFor(b(peakA).plan, results, finding).map((o) => o.title);
    };
    expect(titles(0.45).some((t) => t.includes('USB 2 of'))).toBe(true);
    expect(titles(1.3).some((t) => t.includes('USB 2 of'))).toBe(false);
  });

  // A linear regulator turns seven of twelve volts into heat: nothing more should hang on it.
  it('feeds the hub from a converter of its own where a linear regulator feeds the computer', () => {
    const linear = bench()
      .without('converter')
      .part('converter', 'linear-regulator', 'seat', { ratedA: 5, limitMaxA: 8 })
      .wire('clamp.A', 'converter.gnd', { lengthM: 0.1 })
      .wire('guard.out', 'converter.in', { lengthM: 0.1 })
      .wire('guard.gnd', 'converter.gnd', { lengthM: 0.1 })
      .wire('bulk.+', 'converter.in', { lengthM: 0.1 })
      .wire('bulk.-', 'converter.gnd', { lengthM: 0.1 })
      .wire('relay.31', 'converter.gnd', { lengthM: 0.3 })
      .wire('converter.gnd', 'ground.31', { lengthM: 2.2 })
      .wire('converter.out', 'computer.2', { lengthM: 0.25, areaMm2: 1.5 })
      .wire('converter.out', 'computer.4', { lengthM: 0.25, areaMm2: 1.5 })
      .wire('converter.gnd', 'computer.6', { lengthM: 0.25, areaMm2: 1.5 })
      .wire('converter.gnd', 'computer.9', { lengthM: 0.25, areaMm2: 1.5 })
      .part('modem', 'usb-device', 'seat', { typA: 0.2, peakA: 1.3 })
      .wire('computer.usb1', 'modem.usb', { lengthM: 1 });
    const offers = repairsOf(linear, RULE);
    expect(offers.map((o) => o.title)).toEqual([expect.stringContaining('from a converter of its own')]);
    const next = applyOrThrow(linear.plan, offers[0]!.edit);
    expect(Object.values(next.parts).filter((p) => p.kind === 'step-down')).toHaveLength(1);
    expect(compute(next).report.findings.filter((f) => f.rule === RULE)).toEqual([]);
  });
});
