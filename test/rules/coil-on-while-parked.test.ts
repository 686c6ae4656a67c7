import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, fused } from './plans.ts';

const RULE = 'coil-on-while-parked';

/** A relay whose coil hangs on a line, with a camera on one of its contacts. */
function worked(by: 'fuse.2' | 'senseFuse.2', contact: '87' | '87a', coil: Readonly<Record<string, number>> = {}): Bench {
  return bench()
    .part('k', 'relay', 'seat', { suppression: 'diode', ...coil })
    .part('camera', 'camera', 'desk')
    .wire(by, 'k.86', { lengthM: 2.2 }, 'coil')
    .wire('k.85', 'converter.gnd', { lengthM: 0.3 })
    .wire('fuse.2', 'k.30', { lengthM: 2.2 })
    .wire(`k.${contact}`, 'camera.+', { lengthM: 2 })
    .wire('camera.-', 'converter.gnd', { lengthM: 2 });
}

describe('relay coil energised while parked', () => {
  it('worked by the key', () => {
    clean(worked('senseFuse.2', '87'), RULE);
    clean(bench(), RULE);
  });

  // Worked by hand: 12.9 V / 90 ohm = 143 mA at most; 90 Ah x 0.4 / (24 h x 0.143 A) = 10.5 days.
  it('a coil on permanent 30, the load on the contact that closes at rest', () => {
    const b = worked('fuse.2', '87a');
    const f = flagged(b, RULE, { level: 'fault', subject: b.id('k'), says: ['coil of', 'days'], repairs: 1 });
    const coilA = f.figures.find((x) => x.label === 'coil, parked')!.value;
    const days = f.figures.find((x) => x.label === 'days')!.value;
    // Copper from 20 °C down to −30 °C has up to a fifth less: 0.14 to 0.18 A.
    if (!(coilA > 0.13 && coilA < 0.18)) throw new Error(`coil ${coilA} A`);
    if (Math.abs(days - (0.4 * 90) / 24 / coilA) > 0.05) throw new Error(`${days} days`);
  });

  it('just either side of 5 mA', () => {
    const ohms = (coilOhm: number) => worked('fuse.2', '87', { coilV: 12, coilOhm, pullInV: 7.2 });
    clean(ohms(3300), RULE);
    const b = ohms(2400);
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), repairs: 1 });
  });

  it('a hold relay that permanent 30 triggers', () => {
    const b = bench().cut('trigger').wire('fuse.2', 'relay.15', { lengthM: 2.2 });
    flagged(b, RULE, { level: 'fault', subject: b.id('relay'), figures: { 'coil, parked': 0.14 }, repairs: 1 });
  });

  it('a relay that nothing feeds yet', () => {
    quiet(fused().part('k', 'relay', 'seat'), RULE);
  });
});
