import { describe, expect, it } from 'vitest';
import { sensor as i2c } from '../../src/rules/book/examples/bus-run-too-far.ts';
import { i2cFarad, i2cRiseS } from '../../src/trade/links.ts';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'bus-run-too-far';

const plain = (bus: 'spi' | 'one-wire', lengthM: number) => {
  const b = bench().part('sensor', 'bus-device', 'seat', { bus }).wire('sensor.+', 'computer.17', { lengthM }).wire('sensor.-', 'computer.39', { lengthM });
  if (bus === 'one-wire') return b.wire('sensor.data', 'computer.7', { lengthM });
  return b
    .wire('sensor.mosi', 'computer.19', { lengthM })
    .wire('sensor.miso', 'computer.21', { lengthM })
    .wire('sensor.sclk', 'computer.23', { lengthM })
    .wire('sensor.ce', 'computer.24', { lengthM });
};

describe('short-reach bus led too far', () => {
  // I2C specification (UM10204, from memory): t_r = 0.8473 R C, at most 1000 ns at 100 kHz and 300 ns at 400 kHz, 400 pF.
  it('3 m, 1.8 kΩ, 400 kHz: 320 pF and 488 ns', () => {
    const b = i2c(3, '400');
    flagged(b, RULE, { level: 'fault', subject: b.id('sensor'), figures: { capacitance: 320, 'rise time': 488 }, repairs: 1 });
  });

  it('5 m at any speed: 520 pF', () => {
    const b = i2c(5);
    flagged(b, RULE, { level: 'fault', subject: b.id('sensor'), figures: { capacitance: 520 }, says: ['any speed'], repairs: 0 });
  });

  it('3 m at 100 kHz and 1 m at 400 kHz (183 ns) pass', () => {
    clean(i2c(3), RULE);
    clean(i2c(1, '400'), RULE);
    expect(i2cRiseS(1800, i2cFarad(1, 2)) * 1e9).toBeCloseTo(183, 0);
  });

  it('either side of 400 pF: 3.8 m and 3.9 m', () => {
    clean(i2c(3.8), RULE);
    const b = i2c(3.9);
    flagged(b, RULE, { level: 'fault', subject: b.id('sensor') });
  });

  it('a bus on other pins: nobody has said what pulls it up', () => {
    const b = bench()
      .part('sensor', 'bus-device', 'seat')
      .wire('sensor.+', 'computer.17')
      .wire('sensor.-', 'computer.39')
      .wire('sensor.sda', 'computer.15')
      .wire('sensor.scl', 'computer.16');
    unsure(b, RULE, 'pulls the bus');
  });

  // SPI 0.3 m: practice. One-wire 10 m: makers' notes, the smaller of two figures.
  it('SPI 0.3 m, one-wire 10 m', () => {
    clean(plain('spi', 0.3), RULE);
    const spi = plain('spi', 0.4);
    flagged(spi, RULE, { level: 'fault', subject: spi.id('sensor') });
    clean(plain('one-wire', 10), RULE);
    const far = plain('one-wire', 10.5);
    flagged(far, RULE, { level: 'fault', subject: far.id('sensor') });
  });

  it('no bus, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
