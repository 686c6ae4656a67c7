import { describe, expect, it } from 'vitest';
import { proposals, repairsFor } from '../../src/advise/index.ts';
import { wiresOn } from '../../src/plan/connect.ts';
import { setSettings } from '../../src/plan/partEdits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { isLit, keySenses } from '../../src/rules/keySense.ts';
import { applyOrThrow } from './applied.ts';
import { clean, compute, factsOf, findingsOf, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { onIgnition, sensedOn, withCutout, withLatch, withStore } from './plansSense.ts';

const RULE = 'switch-cuts-running-computer';
const inSupply = (b: Bench, wire = 'feed'): Bench => b.into(wire, 'switch', 'master-switch', ['1', '2']);

/** What the one offer for a plan makes of it; findings of the rules named must not be there. */
function moved(b: Bench, without: readonly string[] = []): Plan {
  const results = compute(b);
  const finding = findingsOf(results, RULE)[0]!;
  const offers = repairsFor(b.plan, results, finding);
  expect(offers.map((o) => o.title)).toEqual([expect.stringMatching(/^Move S1 switch into the key’s line behind F\d senseFuse, with gold contacts$/)]);
  expect(offers[0]!.safe, 'the person placed it: ask first').toBe(false);
  const next = applyOrThrow(b.plan, offers[0]!.edit);
  const after = compute(next);
  const said = new Set(results.report.findings.map((f) => `${f.rule} ${f.subject.id}`));
  // Nothing new at all, be it a hazard, a fault or advice.
  expect(after.report.findings.filter((f) => !said.has(`${f.rule} ${f.subject.id}`)).map((f) => `${f.rule}: ${f.what}`)).toEqual([]);
  for (const rule of [RULE, ...without]) expect(findingsOf(after, rule), rule).toEqual([]);
  return next;
}

/** The rule has a finding, and proposes nothing for it. */
function leftAlone(b: Bench): void {
  const results = compute(b);
  const found = findingsOf(results, RULE);
  expect(found.length).toBeGreaterThan(0);
  expect(found.flatMap((f) => proposals(b.plan, results, f)).map((o) => o.title)).toEqual([]);
}

describe('a switch that cuts the running computer', () => {
  it('in the supply, ahead of the hold relay: 3 + 3 + 25 s of stop and a quarter more are wanted', () => {
    const b = inSupply(bench());
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { needed: 38.75 }, says: ['switch', 'cuts the running computer'], repairs: 1 });
    // Said once: held long enough, it lacks nothing else.
    expect(findingsOf(compute(b), 'power-gone-too-soon')).toEqual([]);
  });

  it('behind the hold relay too', () => {
    const b = inSupply(bench(), 'out');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), repairs: 1 });
  });

  it('in the line that tells of the key it asks for a stop', () =>
    clean(bench().into('trigger', 'switch', 'master-switch', ['1', '2'], { contact: 'gold' }), RULE));

  it('ahead of a store that carries the computer long enough', () => {
    clean(withStore().into('feed', 'switch', 'master-switch', ['1', '2']), RULE);
  });

  it('no switch, nothing to say', () => quiet(bench(), RULE));
});

// The catalogue’s clean form: the switch in series with the sense. Trigger and sensor must both stand behind it: were the sensor
// alone behind it, the relay would hold for ever; the trigger alone, the computer would not be told before its power goes.
describe('the switch moved into the line of the key', () => {
  it('stands between the fuse and both that listen, is of gold, and the supply goes straight on', () => {
    const b = inSupply(bench());
    const next = moved(b, ['contact-needs-more-current', 'power-gone-too-soon']);
    const at = (name: string, terminal: string) =>
      wiresOn(next, b.id(name), terminal)
        .map((w) => [w.from, w.to].find((e) => e.part !== b.id(name))!)
        .map((e) => `${b.nameOf(e.part)}.${e.terminal}`)
        .sort();
    expect(at('switch', '1')).toEqual(['senseFuse.2']);
    expect(at('switch', '2')).toEqual(['relay.15', 'sense.1']);
    expect(at('senseFuse', '2')).toEqual(['switch.1']);
    expect(at('fuse', '2')).toEqual(['relay.30']);
    expect(next.parts[b.id('switch')]!.settings).toMatchObject({ contact: 'gold' });
    // 2.1 m as typed, cut in two by the switch, is one length again.
    expect(wiresOn(next, b.id('relay'), '30')[0]!.lengthM).toBeCloseTo(2.1);
    // The wire that was cut keeps its number: it is already on the parts list and on its label.
    expect(wiresOn(next, b.id('relay'), '30')[0]!.number).toBe(b.plan.wires[b.wireId('switch<')]!.number);
  });

  it('in a 24 V vehicle, behind the relay, and with a latch in its place', () => {
    moved(inSupply(bench('24 V', { systemV: 24 }).set('fuse', { voltClass: '58' }).set('senseFuse', { voltClass: '58' })));
    moved(inSupply(bench(), 'out'));
    moved(inSupply(withLatch()));
  });

  it('off, it reads as key-off: neither the sensor nor the trigger gets anything, and what shares the fuse stays on', () => {
    const b = inSupply(bench())
      .part('lamp', 'led', 'dash')
      .part('lampR', 'resistor', 'dash', { ohm: 2200 })
      .wire('senseFuse.2', 'lampR.1', { lengthM: 0.1 })
      .wire('lampR.2', 'lamp.A', { lengthM: 0.1 })
      .wire('lamp.K', 'ground.31', { lengthM: 0.3 });
    const next = moved(b);
    const off = factsOf(compute(applyOrThrow(next, setSettings(next, b.id('switch'), { closed: false }))));
    expect(isLit(off, keySenses(off)[0]!.sensor!, '15', 'RUN_CHARGING')).toBe(false);
    expect(off.volts(`${b.id('relay')}.15`, 'RUN_CHARGING', 'typical') ?? 0).toBeLessThan(0.1);
    expect(off.volts(`${b.id('lampR')}.1`, 'RUN_CHARGING', 'typical')).toBeGreaterThan(13);
  });

  describe('is not offered where it would not do', () => {
    it('no key sensor: nobody would tell the computer', () => leftAlone(inSupply(bench().without('opto', 'sense', 'reverse', 'pull'))));

    it('nothing holds the supply, or not long enough for the stop', () => {
      leftAlone(inSupply(onIgnition()));
      leftAlone(inSupply(bench().set('relay', { holdS: 30 })));
    });

    it('the sensor and the trigger watch different lines: one contact cannot break two', () => leftAlone(inSupply(sensedOn('75'))));

    it('a cut-out without a warning opens sooner than the stop takes', () => leftAlone(inSupply(withCutout(), 'cutout>')));

    it('something else behind it, on permanent 30, would never go off again', () =>
      leftAlone(inSupply(bench()).part('camera', 'camera', 'seat').wire('relay.30', 'camera.+', { lengthM: 1 }).wire('camera.-', 'ground.31', { lengthM: 3 })));

    it('more than one wire leaves it: which of them the switch is for, the person knows', () =>
      leftAlone(
        inSupply(bench(), 'out').part('camera', 'camera', 'seat').wire('switch.2', 'camera.+', { lengthM: 1 }).wire('camera.-', 'ground.31', { lengthM: 3 }),
      ));

    it('two computers hang on it', () =>
      leftAlone(
        inSupply(bench())
          .part('second', 'computer', 'seat')
          .wire('converter.out', 'second.2', { lengthM: 0.25, areaMm2: 1.5 })
          .wire('converter.0v', 'second.6', { lengthM: 0.25, areaMm2: 1.5 }),
      ));

    it('a camera hangs on the same wire as the trigger: the small contact would carry it', () =>
      leftAlone(inSupply(bench()).part('camera', 'camera', 'seat').wire('relay.15', 'camera.+', { lengthM: 1 }).wire('camera.-', 'ground.31', { lengthM: 1 })));

    it('a second switch there would cut it still', () => leftAlone(inSupply(bench()).into('out', 'other', 'master-switch', ['1', '2'])));

    it('another feed, of a line that falls later, speaks to the trigger too', () =>
      leftAlone(
        inSupply(bench())
          .part('other', 'feed-75', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
          .part('otherFuse', 'blade-fuse', 'dash', { ratingA: 1 })
          .part('either', 'diode', 'seat', { type: '1n4007' })
          .wire('battery.+', 'other.in', { owner: 'vehicle' })
          .wire('other.out', 'otherFuse.1', { lengthM: 0.12 })
          .wire('otherFuse.2', 'either.A', { lengthM: 2 })
          .wire('either.K', 'relay.15', { lengthM: 0.1 }),
      ));
  });
});
