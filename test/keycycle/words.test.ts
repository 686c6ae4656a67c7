import { describe, expect, it } from 'vitest';
import type { WorstMargin } from '../../src/analysis/time/types.ts';
import { crankAnswer, spareText, stopAnswer, timeText } from '../../src/sheet/timing/words.ts';

const margin = (more: Partial<WorstMargin>): WorstMargin => ({
  part: 'p1',
  spareS: 42.9,
  stoppedS: 91,
  powerFellS: 133.9,
  openedBy: 'K1 Hold relay',
  brownOuts: [],
  leastCrankV: 4.98,
  band: 'low',
  door: 'at once',
  ...more,
});
const name = (id: string): string => ({ p1: 'Desk', p2: 'Roof' })[id] ?? id;
const always = (): boolean => true;

describe('seconds in hand', () => {
  it('are never shown longer than they are, a lack never shorter', () => {
    expect(spareText(42.9)).toBe('42 s');
    expect(spareText(3.99)).toBe('3.9 s');
    expect(spareText(-3.01)).toBe('3.1 s');
    expect(spareText(-42.1)).toBe('43 s');
    expect(spareText(725.9)).toBe('12 min 5 s');
  });

  it('times on the strip keep what matters', () => {
    expect([0.35, 63.2, 60, 720, 725.2].map(timeText)).toEqual(['0.35 s', '63.2 s', '60 s', '12 min', '12 min 5 s']);
  });
});

describe('the one sentence about stopping', () => {
  it('says how long before', () => {
    expect(stopAnswer([margin({})], name, always)).toMatchObject({
      kind: 'ample',
      text: 'stopped 42 s before power falls, at worst',
      detail: 'low supply, door opened at once, power cut by K1 Hold relay',
    });
  });

  it('says when power goes first', () => {
    expect(stopAnswer([margin({ spareS: -8.25, stoppedS: null })], name, always)).toMatchObject({
      kind: 'short',
      text: 'power falls 8.3 s before it has stopped, at worst',
    });
  });

  it('tells a computer that is never told from one whose power stays on', () => {
    expect(stopAnswer([margin({ spareS: null, stoppedS: null })], name, always).text).toBe('power falls while it runs: it is never told to stop');
    expect(stopAnswer([margin({ spareS: null, stoppedS: null, powerFellS: null })], name, always).kind).toBe('never');
    expect(stopAnswer([margin({ spareS: null, powerFellS: null })], name, always).kind).toBe('stays');
  });

  it('is about the computer that has least in hand, by its name', () => {
    const both = [margin({ spareS: 50 }), margin({ part: 'p2', spareS: 7.5 })];
    expect(stopAnswer(both, name, always).text).toBe('Roof: stopped 7.5 s before power falls, at worst');
    expect(stopAnswer([...both, margin({ spareS: null, stoppedS: null })], name, always).text).toMatch(/^Desk: power falls while it runs/);
  });

  it('says nothing of a computer without power, or of none at all', () => {
    expect(stopAnswer([], name, always).kind).toBe('none');
    expect(stopAnswer([margin({ spareS: null, stoppedS: null, powerFellS: null })], name, () => false)).toMatchObject({
      kind: 'none',
      text: 'the computer has no power: nothing stops',
    });
  });
});

describe('the sentence about cranking', () => {
  it('names the least volts, a fall, or that there was no power to lose', () => {
    expect(crankAnswer([margin({})])).toEqual({ kind: 'keeps', text: 'keeps 4.98 V in cranking' });
    expect(crankAnswer([margin({ brownOuts: [5.06, 7.2], leastCrankV: 3.1 })])).toEqual({
      kind: 'browns out',
      text: 'browns out at 5.1 s and 1 more; least 3.10 V in cranking',
    });
    expect(crankAnswer([margin({ leastCrankV: null })])).toEqual({ kind: 'off', text: 'not powered in cranking' });
    expect(crankAnswer([])).toBeNull();
  });
});
