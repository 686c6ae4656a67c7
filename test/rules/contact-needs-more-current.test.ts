import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'contact-needs-more-current';
const button = (settings: Readonly<Record<string, string | number>>) =>
  bench().part('button', 'push-button', 'seat', settings).wire('button.1', 'computer.29').wire('button.2', 'computer.30');
const rocker = (settings: Readonly<Record<string, string | number>>) =>
  bench()
    .part('button', 'master-switch', 'seat', settings)
    .wire('button.1', 'computer.29')
    .wire('button.2', 'computer.30')
    .set('computer', { gpio5Mode: 'in-up' });

describe('heavy contact for a whisper of current', () => {
  // 3.135 V over the weakest own pull, 73 kΩ (board maker's tables): 43 µA. Gold 10 µA, tactile silver 1 mA, silver 10 mA.
  it('a silver rocker of 16 A as an input', () => {
    const b = rocker({ contact: 'silver', dcA: 16 });
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), figures: { switches: 43e-6, wants: 10e-3 }, repairs: 1 });
  });

  it('gold passes on the pin’s own pull', () => {
    clean(button({ contact: 'gold' }), RULE);
    clean(rocker({ contact: 'gold' }), RULE);
  });

  it('the part’s own figure wins: one maker asks 1 mA of gold', () => {
    const b = button({ contact: 'gold', minA: 0.001 });
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), figures: { wants: 1e-3 }, repairs: 1 });
  });

  it('tactile silver: a pull-up of 1 kΩ gives 3 mA, one of 10 kΩ 0.35 mA', () => {
    const pulled = (ohm: number) =>
      button({ contact: 'silver-tactile' }).part('up', 'resistor', 'seat', { ohm }).wire('up.1', 'button.1').wire('up.2', 'computer.17');
    clean(pulled(1000), RULE);
    const b = pulled(10_000);
    flagged(b, RULE, { level: 'fault', subject: b.id('button'), figures: { switches: 3.135 / 10_500 }, repairs: 1 });
  });

  // 12 V line: the hold timer's trigger takes 4 mA, the key sensor 4.7 mA and more: a silver rocker wants 10 mA.
  it('a plain silver rocker in the trigger line', () => {
    const b = bench().cut('trigger').part('rocker', 'master-switch', 'dash').wire('senseFuse.2', 'rocker.1').wire('rocker.2', 'relay.15', { lengthM: 2.3 });
    flagged(b, RULE, { level: 'fault', subject: b.id('rocker'), repairs: 1 });
    clean(b.set('rocker', { contact: 'gold' }), RULE);
  });

  it('in the feed the same rocker has its amps', () => {
    clean(bench().into('feed', 'rocker', 'master-switch', ['1', '2']), RULE);
  });

  it('a power relay’s contact at a pin', () => {
    const b = bench()
      .part('k', 'relay', 'seat', { suppression: 'diode' })
      .wire('senseFuse.2', 'k.86')
      .wire('k.85', 'converter.gnd')
      .wire('k.30', 'computer.30')
      .wire('k.87', 'computer.29')
      .set('computer', { gpio5Mode: 'in-up' });
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), figures: { wants: 0.1 } });
  });

  it('no contact for signals, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
