import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'outputs-fight';
/** GPIO 5 as an output with a button to ground, over some ohms. */
const button = (ohm: number) => {
  const b = bench().part('button', 'push-button', 'seat').wire('button.2', 'computer.39', { lengthM: 0.2 }).set('computer', { gpio5Mode: 'out' });
  if (ohm === 0) return b.wire('computer.29', 'button.1', { lengthM: 0.2 }, 'pin5');
  return b.part('r', 'resistor', 'seat', { ohm }).wire('computer.29', 'r.1', { lengthM: 0.05 }, 'pin5').wire('r.2', 'button.1', { lengthM: 0.2 });
};

describe('two outputs fight over one wire', () => {
  it('an output with a button to ground: 3.3 V into a short', () => {
    const b = button(0);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), says: ['GPIO 5', 'button'], repairs: 2 });
  });

  // 3.3 V / 330 Ω = 10 mA.
  it('either side of 330 Ω', () => {
    clean(button(1000), RULE);
    clean(button(330), RULE);
    const b = button(270);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), figures: { 'between them': 270 }, repairs: 1 });
  });

  it('two outputs on one wire', () => {
    const b = bench().wire('computer.29', 'computer.31', { lengthM: 0.1 }, 'both').set('computer', { gpio5Mode: 'out', gpio6Mode: 'out' });
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('both'), says: ['31'], repairs: 1 });
  });

  // A sender holds its line high while it is silent and pulls it low as it sends: push-pull against push-pull.
  it('an output pin on the line on which a device sends; not where the pin listens, or behind 330 Ω', () => {
    const sender = (mode: string, ohm = 0) => {
      const b = bench()
        .part('receiver', 'serial-device', 'seat')
        .wire('receiver.+', 'computer.17', { lengthM: 0.2 })
        .wire('receiver.-', 'computer.39', { lengthM: 0.2 })
        .set('computer', { gpio5Mode: mode });
      if (ohm === 0) return b.wire('computer.29', 'receiver.tx', { lengthM: 0.2 }, 'pin5');
      return b.part('r', 'resistor', 'seat', { ohm }).wire('computer.29', 'r.1', { lengthM: 0.05 }, 'pin5').wire('r.2', 'receiver.tx', { lengthM: 0.2 });
    };
    const b = sender('out');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), says: ['GPIO 5', 'TX of'], repairs: 1 });
    const near = sender('out', 270);
    flagged(near, RULE, { level: 'hazard', subject: near.wireId('pin5'), figures: { 'between them': 270 } });
    clean(sender('out', 330), RULE);
    quiet(sender('in'), RULE);
  });

  it('an output at ground, and one at 3.3 V', () => {
    const low = bench().wire('computer.29', 'computer.39', { lengthM: 0.1 }, 'pin5').set('computer', { gpio5Mode: 'out' });
    flagged(low, RULE, { level: 'hazard', subject: low.wireId('pin5'), says: ['0 V'] });
    const high = bench().wire('computer.29', 'computer.17', { lengthM: 0.1 }, 'pin5').set('computer', { gpio5Mode: 'out' });
    flagged(high, RULE, { level: 'hazard', subject: high.wireId('pin5'), says: ['3.3 V'] });
  });

  it('has nothing to say of inputs', () => {
    quiet(bench(), RULE);
  });
});
