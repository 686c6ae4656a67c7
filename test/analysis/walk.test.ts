import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { Results } from '../../src/advise/types.ts';
import { KEY_POSITIONS } from '../../src/analysis/types.ts';
import type { Band, Plan, VehicleState } from '../../src/plan/types.ts';
import { demoPlan } from '../bench/largePlan.ts';
import { bench, fused } from '../rules/plans.ts';

function idOf(plan: Plan, kind: string, name?: string): string {
  const part = Object.values(plan.parts).find((p) => p.kind === kind && (name === undefined || p.name === name));
  if (!part) throw new Error(`no ${kind} ${name ?? ''}`);
  return part.id;
}

const readingOf = (r: Results, state: VehicleState, band: Band = 'typical') => r.analysis.readings.find((x) => x.state === state && x.band === band)!;

function deviceOn(r: Results, device: string, state: VehicleState, band: Band = 'typical'): boolean {
  const at = r.analysis.index.devices.indexOf(device);
  if (at === -1) throw new Error(`no device ${device}`);
  return readingOf(r, state, band).deviceOn[at] === 1;
}

function volts(r: Results, terminal: string, state: VehicleState, band: Band = 'typical'): number {
  return readingOf(r, state, band).terminalV[r.analysis.index.terminals.indexOf(terminal)]!;
}

describe('the walk of the key through the demo', () => {
  const r = computeResults(demoPlan);
  const computer = idOf(demoPlan, 'computer');
  const relay = idOf(demoPlan, 'delay-off-relay');
  const converter = idOf(demoPlan, 'step-down');

  it('has all nine states in all three bands, solved', () => {
    expect(r.analysis.readings).toHaveLength(27);
    expect(new Set(r.analysis.readings.map((x) => `${x.state} ${x.band}`)).size).toBe(27);
    expect(r.analysis.readings.filter((x) => x.status !== 'solved')).toEqual([]);
    expect(r.analysis.design).toMatchObject({ state: 'RUN_STOPPED', band: 'low', status: 'solved' });
  });

  it('has the computer up from Ignition to Held and off when parked', () => {
    for (const band of ['low', 'typical', 'high'] as const) {
      const up = KEY_POSITIONS.filter(({ state }) => deviceOn(r, `${computer}:powered`, state, band)).map((k) => k.key);
      expect(up, band).toEqual(['Ignition', 'Start', 'Running', 'Held']);
      expect(KEY_POSITIONS.some(({ state }) => deviceOn(r, `${computer}:halted`, state, band))).toBe(false);
    }
  });

  it('lets the hold relay delay: the computer is told in Held while its power stays, and says so', () => {
    expect(deviceOn(r, `${relay}:hold`, 'RUN_CHARGING')).toBe(true);
    expect(deviceOn(r, `${relay}:hold`, 'RETAIN')).toBe(true);
    expect(readingOf(r, 'RETAIN').waiting).toContain(`${relay}:hold`);
    expect(readingOf(r, 'RETAIN_DOOR').waiting).toContain(`${relay}:hold`);
    // Parked is a reading with every delay run out.
    expect(deviceOn(r, `${relay}:hold`, 'OFF_ASLEEP')).toBe(false);
    expect(readingOf(r, 'OFF_ASLEEP').waiting).toEqual([]);
    expect(deviceOn(r, `${converter}:run`, 'OFF_ASLEEP')).toBe(false);
  });

  it('gives the supply of each state at the battery, less what its resistance loses', () => {
    const battery = idOf(demoPlan, 'battery');
    // Open-circuit volts of the states, 12 V vehicle (common practice, no source); at most 30 mohm and 3 A from them.
    for (const [state, band, v] of [
      ['OFF_ASLEEP', 'typical', 12.6],
      ['ACC', 'low', 11.0],
      ['RUN_STOPPED', 'typical', 12.0],
      ['RUN_CHARGING', 'high', 16.0],
      ['RETAIN', 'low', 11.5],
      ['START', 'high', 11.5],
      ['ISOLATED', 'typical', 0],
    ] as const) {
      const across = volts(r, `${battery}.+`, state, band) - volts(r, `${battery}.-`, state, band);
      expect(across, `${state} ${band}`).toBeLessThanOrEqual(v + 1e-9);
      expect(across, `${state} ${band}`).toBeGreaterThan(v - 0.1);
    }
  });

  it('comes to the same from parked straight into any position', () => {
    expect(r.analysis.dependsOnHistory).toEqual([]);
  });

  it('adds the states that a vehicle has besides, in every band', () => {
    const more = computeResults({ ...demoPlan, vehicle: { ...demoPlan.vehicle, stopStart: true, remoteStart: true, electrified: true, isolator: true } });
    const extra = ['AUTO_CRANK', 'AUTO_STOP', 'ISOLATED_RUNNING', 'PARKED_CHARGE', 'REMOTE_RUN'];
    expect([...new Set(more.analysis.readings.map((x) => x.state))].filter((s) => extra.includes(s)).sort()).toEqual(extra);
    expect(more.analysis.readings).toHaveLength(27 + 15);
    // Readings of the nine do not know of the others.
    const without = (x: Results) => x.analysis.readings.filter(({ state }) => !extra.includes(state)).map((y) => [...y.terminalV]);
    expect(without(more)).toEqual(without(r));
  });
});

describe('memory along the walk', () => {
  it('lies in devices alone: what the key left behind shows in the reading after it', () => {
    // A relay that holds itself: once the ignition has pulled it in, it stays with the permanent feed.
    const b = fused()
      .part('feed15', 'feed-15', 'dash', {}, { owner: 'vehicle' })
      .part('latch', 'relay', 'dash')
      .part('one', 'diode', 'dash')
      .part('two', 'diode', 'dash')
      .wire('battery.+', 'feed15.in', { owner: 'vehicle' })
      .wire('fuse.2', 'latch.30')
      .wire('feed15.out', 'one.A')
      .wire('one.K', 'latch.86')
      .wire('latch.87', 'two.A')
      .wire('two.K', 'latch.86')
      .wire('latch.85', 'ground.31');
    const r = computeResults(b.plan);
    const coil = `${b.id('latch')}:coil`;
    expect(deviceOn(r, coil, 'ACC')).toBe(false);
    expect(deviceOn(r, coil, 'RUN_STOPPED')).toBe(true);
    expect(deviceOn(r, coil, 'RETAIN')).toBe(true);
    expect(deviceOn(r, coil, 'OFF_ASLEEP')).toBe(true);
    expect(volts(r, `${b.id('latch')}.87`, 'OFF_ASLEEP')).toBeGreaterThan(12);
  });

  it('shows a state that the way there decides', () => {
    // A relay on the lines that only Start drops (75) and Start leaves (15): pulled in through 30 by its own contact in ACC.
    const b = fused()
      .part('feed75', 'feed-75', 'dash', {}, { owner: 'vehicle' })
      .part('latch', 'relay', 'dash')
      .part('one', 'diode', 'dash')
      .part('two', 'diode', 'dash')
      .wire('battery.+', 'feed75.in', { owner: 'vehicle' })
      .wire('fuse.2', 'latch.30')
      .wire('feed75.out', 'one.A')
      .wire('one.K', 'latch.86')
      .wire('latch.87', 'two.A')
      .wire('two.K', 'latch.86')
      .wire('latch.85', 'ground.31');
    const r = computeResults(b.plan);
    // Live in ACC and latched since: direct entry finds line 75 live as well, so nothing depends on the way.
    expect(r.analysis.dependsOnHistory).toEqual([]);
    expect(deviceOn(r, `${b.id('latch')}:coil`, 'START')).toBe(true);
  });

  it('names what chatters instead of giving figures', () => {
    // A buzzer: the relay's own break contact feeds its coil.
    const b = fused().part('buzzer', 'relay', 'dash').wire('fuse.2', 'buzzer.30').wire('buzzer.87a', 'buzzer.86').wire('buzzer.85', 'ground.31');
    const r = computeResults(b.plan);
    const parked = readingOf(r, 'OFF_ASLEEP');
    expect(parked.status).toBe('not computed');
    expect(parked.trouble).toEqual({ kind: 'chatters', where: `${b.id('buzzer')}:coil` });
    expect([...parked.terminalV].every(Number.isNaN)).toBe(true);
    expect(r.analysis.parked.buildA).toBeNaN();
    expect(r.analysis.parked.days).toBeNaN();
  });

  it('still knows the parked state when a converter hunts while the key is on', () => {
    // 50 mA can start no computer: its rail collapses under it again and again, until the hold relay lets go.
    const b = bench('hunts').set('converter', { limitMaxA: 0.05, limitMinA: 0.05 });
    const r = computeResults(b.plan);
    expect(readingOf(r, 'RUN_STOPPED').trouble).toEqual({ kind: 'chatters', where: `${b.id('computer')}:powered` });
    expect(readingOf(r, 'OFF_ASLEEP').status).toBe('solved');
    expect(r.analysis.parked.buildA).toBeLessThan(0.001);
  });

  it('comes to an end for a converter that can give nothing at all', () => {
    const b = bench('nothing', { systemV: 24, dipLevel: 'III' }).set('converter', { limitMaxA: 1e-9 });
    const r = computeResults(b.plan);
    expect(readingOf(r, 'RUN_STOPPED').trouble).toEqual({ kind: 'starves', where: `${b.id('converter')}:run` });
    expect(readingOf(r, 'RUN_STOPPED').status).toBe('solved');
  });

  it('calls what nothing reaches floating, never 0 V', () => {
    const loose = computeResults(fused().part('lonely', 'splice', 'desk').part('other', 'splice', 'desk').wire('lonely.s', 'other.s', {}, 'w').plan);
    const at = loose.analysis.index.terminals.findIndex((t) => t.endsWith('.s'));
    for (const x of loose.analysis.readings) expect(x.terminalV[at]).toBeNaN();
  });
});
