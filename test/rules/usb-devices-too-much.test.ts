import { describe, expect, it } from 'vitest';
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
    const small = bus().part('d', 'usb-device', 'seat', { typA: 0.1, peakA: 0.39 }).wire('hub.d1', 'd.usb', { lengthM: 1 });
    clean(small, RULE);
    const over = small.set('d', { peakA: 0.42 });
    flagged(over, RULE, { level: 'advice', subject: over.id('computer'), says: ['port 1'] });
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
    expect(hub.settings).toEqual({ backfeed: 'no' });
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
      withHub(bench(), { backfeed }).part('modem', 'usb-device', 'seat', { typA: 0.2, peakA: 1 }).wire('computer.usb2', 'modem.usb', { lengthM: 1 });
    const there = b('no');
    flagged(there, RULE, { level: 'fault', subject: there.id('computer'), repairs: 1 });
    expect(repairsOf(there, RULE)[0]).toMatchObject({ safe: true });
    expect(repairsOf(b('unknown'), RULE).every((r) => !r.safe)).toBe(true);
  });
});
