import { describe, expect, it } from 'vitest';
import { repairsFor } from '../../src/advise/index.ts';
import { apply } from '../../src/plan/apply.ts';
import { clean, compute, findingsOf, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { withSound } from './plansSense.ts';

const RULE = 'audio-ground-ring';

describe('sound lead closes a ground ring', () => {
  it('an isolator opens it', () => {
    const b = withSound().part('isolator', 'audio-isolator', 'seat').wire('sound.line', 'isolator.a').wire('isolator.b', 'aux.aux', { lengthM: 2.3 });
    clean(b, RULE);
  });

  it('straight from the adapter to the radio', () => {
    const b = withSound().wire('sound.line', 'aux.aux', { lengthM: 2.3 }, 'lead');
    const f = flagged(b, RULE, { level: 'fault', subject: b.wireId('lead'), says: ['sound', 'aux', 'nothing opens'], repairs: 1 });
    expect(f.figures[0]!.value).toBeGreaterThan(1e-4);
  });

  it('over a ready-made lead it is one ring and one finding', () => {
    const b = withSound()
      .part('lead', 'audio-lead', 'seat')
      .wire('sound.line', 'lead.a', { lengthM: 0.1 }, 'near')
      .wire('lead.b', 'aux.aux', { lengthM: 0.2 }, 'far');
    expect(findingsOf(compute(b), RULE)).toHaveLength(1);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('near'), repairs: 1 });
  });

  it('the isolator is put in with its source side at the adapter', () => {
    for (const [from, to] of [
      ['sound.line', 'aux.aux'],
      ['aux.aux', 'sound.line'],
    ] as const) {
      const b = withSound().wire(from, to, { lengthM: 2.3 });
      const r = compute(b);
      const offer = repairsFor(b.plan, r, findingsOf(r, RULE)[0]!)[0]!;
      const done = apply(b.plan, offer.edit);
      const plan = done.ok ? done.plan : b.plan;
      const isolator = Object.values(plan.parts).find((p) => p.kind === 'audio-isolator')!;
      const atSource = Object.values(plan.wires).find((w) => [w.from, w.to].some((e) => e.part === isolator.id && e.terminal === 'a'))!;
      expect([atSource.from.part, atSource.to.part]).toContain(b.id('sound'));
    }
  });

  it('an adapter that floats closes no ring', () => {
    const b = bench()
      .part('sound', 'usb-sound', 'seat')
      .part('aux', 'radio-aux', 'dash', {}, { owner: 'vehicle' })
      .wire('sound.line', 'aux.aux', { lengthM: 2.3 });
    clean(b, RULE);
  });

  it('has nothing to say without a sound lead', () => {
    quiet(bench(), RULE);
  });
});
