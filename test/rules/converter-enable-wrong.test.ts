import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { onIgnition, straight, withIgnition } from './plansSense.ts';

const RULE = 'converter-enable-wrong';
// Data sheet of the 2596 class (read): runs below 0.6 V at its input, off above 2.0 V; stands 25 V (from memory).
const OLDER = { enActive: 'low', enMaxV: 25 } as const;

/** Converter on permanent 30, its enable on the key. */
function keyed(settings: Readonly<Record<string, string | number>>, systemV: 12 | 24 = 12): Bench {
  return withIgnition(straight('30', 'keyed', { systemV }))
    .set('converter', settings)
    .wire('senseFuse.2', 'converter.en', { lengthM: 2.2 }, 'enable');
}

describe('converter’s enable input is wired the wrong way', () => {
  it('one that runs while high, on the key', () => {
    clean(keyed({ enActive: 'high' }), RULE);
  });

  it('one of the 2596 class on the key: 12 V switch it off', () => {
    const b = keyed(OLDER);
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), says: ['switches it off'], repairs: 1 });
  });

  it('over an inverter it is low with the key on', () => {
    const b = withIgnition(straight('30'))
      .set('converter', OLDER)
      .part('inverter', 'optocoupler', 'seat', { type: '817a' })
      .part('r', 'resistor', 'dash', { ohm: 2200 })
      .part('pull', 'resistor', 'seat', { ohm: 10_000 })
      .wire('senseFuse.2', 'r.1')
      .wire('r.2', 'inverter.A')
      .wire('inverter.K', 'converter.gnd')
      .wire('inverter.E', 'converter.gnd')
      .wire('inverter.C', 'converter.en')
      .wire('pull.1', 'converter.in')
      .wire('pull.2', 'inverter.C');
    clean(b, RULE);
  });

  it('where the supply falls with the key anyway it is left open', () => {
    const b = onIgnition().set('converter', OLDER).wire('senseFuse.2', 'converter.en', { lengthM: 2.2 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), repairs: 1 });
  });

  it('more than it stands: 32 V on 25 V', () => {
    const b = keyed({ ...OLDER, inMaxV: 36, absMaxV: 60 }, 24);
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), says: ['stands 25.0 V'.replace('25.0', '25')] });
    clean(keyed({ enActive: 'high' }, 24), RULE);
  });

  it('joined to something that never drives it', () => {
    const b = bench().part('button', 'push-button', 'seat').wire('button.1', 'converter.en');
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), says: ['never drives it', 'never runs'] });
  });

  it('tied to ground although it runs while high', () => {
    const b = bench().wire('converter.en', 'converter.gnd', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter') });
    clean(bench().set('converter', OLDER).wire('converter.en', 'converter.gnd', { lengthM: 0.1 }), RULE);
  });

  it('has nothing to say where it is not joined', () => {
    quiet(bench(), RULE);
  });
});
