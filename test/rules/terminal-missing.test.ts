import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'terminal-missing';

describe('a part has supply but misses a terminal', () => {
  it('nothing is missing on the bench', () => clean(bench(), RULE));

  it('a converter without ground: the repair joins it to the only ground point', () => {
    const b = fused('no ground').part('converter', 'step-down', 'seat').wire('fuse.2', 'converter.in');
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), says: ['gnd'], repairs: 1 });
    // An output that is not used yet harms nobody.
    clean(b.wire('converter.gnd', 'ground.31'), RULE);
  });

  it('a display without its 0 V: the repair takes the current back to the converter that sends it', () => {
    const b = bench().part('display', 'touch-display', 'desk').wire('converter.out', 'display.5v', { lengthM: 1, areaMm2: 1.5 });
    flagged(b, RULE, { level: 'fault', subject: b.id('display'), repairs: 1 });
    const back = repairsOf(b, RULE)[0]!.edit.changes.find((c) => c.table === 'wires');
    expect(back?.after).toMatchObject({ from: { terminal: '0v' }, to: { part: b.id('converter'), terminal: '0v' } });
  });

  it('a hold relay without its trigger', () => {
    const b = bench().cut('trigger');
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), says: ['15'] });
  });

  it('a part that is only dropped on the plan is a to-do, not a fault', () => {
    quiet(fused().part('converter', 'step-down', 'seat'), RULE);
    quiet(fused().part('converter', 'step-down', 'seat').wire('converter.gnd', 'ground.31'), RULE);
  });
});
