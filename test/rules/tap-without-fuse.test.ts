import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, fused, ground } from './plans.ts';

const RULE = 'tap-without-fuse';

/** A permanent feed straight into a converter, the donor fuse not read. */
const bare = () =>
  ground('bare tap')
    .part('feed30', 'feed-30', 'dash', {}, { owner: 'vehicle' })
    .part('converter', 'step-down', 'seat')
    .part('computer', 'computer', 'seat')
    .wire('feed30.out', 'converter.in', { lengthM: 1.5, areaMm2: 0.75 }, 'feed')
    .wire('converter.gnd', 'ground.31', { lengthM: 1.5 })
    .wire('converter.out', 'computer.2', { lengthM: 0.2 })
    .wire('converter.0v', 'computer.6', { lengthM: 0.2 });

describe('a tap has no fuse', () => {
  it('1.5 m of 0.75 mm² from the radio plug to a converter: 7.5 A at 60 °C, 6.6 A in a dash of 70 °C (planning table and its heat factor)', () => {
    const b = bare();
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed30'), figures: { 'planning limit of the thinnest wire': 7.5 * Math.sqrt(35 / 45) }, repairs: 1 });
  });

  it('a fuse at both taps is in order', () => clean(bench(), RULE));

  it('a donor fuse that was read and is no bigger than the wire makes it advice', () => {
    const b = bare().set('feed30', { donorFuseA: 5, donorFuseRead: true });
    flagged(b, RULE, { level: 'advice', subject: b.id('feed30'), says: ['5 A'], repairs: 1 });
  });

  it('a read donor fuse bigger than the wire changes nothing', () => {
    const b = bare().set('feed30', { donorFuseA: 10, donorFuseRead: true });
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed30') });
  });

  it('a bare battery post is a tap', () => {
    const b = bare().cut('feed').wire('battery.+', 'converter.in', { lengthM: 3 }, 'feed');
    flagged(b, RULE, { level: 'hazard', subject: b.id('battery'), repairs: 1 });
  });

  it('two loads on two wires of one tap: the repair puts both behind one fuse', () => {
    const b = bare().part('relay', 'relay', 'seat').wire('feed30.out', 'relay.86', { lengthM: 2 }).wire('relay.85', 'ground.31');
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed30'), repairs: 1 });
  });

  it('2.2 kΩ at the tap limits a short to milliamps: 16² / 2090 = 0.122 W of 0.25 W', () => {
    const sensed = (lengthM: number) =>
      ground('resistor at the tap')
        .part('feed15', 'feed-15', 'dash', {}, { owner: 'vehicle' })
        .part('sense', 'resistor', 'dash', { ohm: 2200, ratedW: 0.25 })
        .part('led', 'led', 'seat')
        .wire('feed15.out', 'sense.1', { lengthM })
        .wire('sense.2', 'led.A')
        .wire('led.K', 'ground.31');
    clean(sensed(0.1), RULE);
    // 0.8 m away from the tap the wire to it can chafe.
    const far = sensed(0.8);
    flagged(far, RULE, { level: 'hazard', subject: far.id('feed15'), repairs: 1 });
    // 1 kΩ, 0.25 W: 16² / 950 = 0.27 W burns it in a short at its far end.
    const small = sensed(0.1).set('sense', { ohm: 1000 });
    flagged(small, RULE, { level: 'hazard', subject: small.id('feed15') });
  });

  it('either side of 1 kΩ, of a hand’s width, of the wire’s limit and of 20 J', () => {
    const sensed = (ohm: number, lengthM: number) =>
      ground('resistor at the tap')
        .part('feed15', 'feed-15', 'dash', {}, { owner: 'vehicle' })
        .part('sense', 'resistor', 'dash', { ohm, ratedW: 2 })
        .part('led', 'led', 'seat')
        .wire('feed15.out', 'sense.1', { lengthM })
        .wire('sense.2', 'led.A')
        .wire('led.K', 'ground.31');
    clean(sensed(1000, 0.15), RULE);
    flagged(sensed(910, 0.15), RULE, { level: 'hazard', subject: sensed(910, 0.15).id('feed15') });
    flagged(sensed(1000, 0.16), RULE, { level: 'hazard', subject: sensed(1000, 0.16).id('feed15') });
    // 1 mm² in a dash of 70 °C carries 10 A × √(35/45) = 8.8 A.
    const read = (donorFuseA: number) => bare().wireSet('feed', { areaMm2: 1 }).set('feed30', { donorFuseA, donorFuseRead: true });
    flagged(read(7.5), RULE, { level: 'advice', subject: read(7.5).id('feed30') });
    flagged(read(10), RULE, { level: 'hazard', subject: read(10).id('feed30') });
    // ½ × 1.5 F × 5.12² is 19.7 J as filled; what counts is what it is rated for: ½ C × 5.4² is 19.7 J at 1.35 F, 20.4 J at 1.4 F.
    const store = (farad: number) =>
      bench().part('store', 'capacitor', 'seat', { farad, ratedV: 5.4, esrOhm: 0.05 }).wire('store.+', 'converter.out').wire('store.-', 'converter.0v');
    clean(store(1.35), RULE);
    flagged(store(1.4), RULE, { level: 'hazard', subject: store(1.4).id('store') });
  });

  it('a store of 20 J and more is a tap: 25 F at 5.4 V holds 364 J', () => {
    const b = bench()
      .part('store', 'capacitor', 'seat', { farad: 25, ratedV: 5.4, esrOhm: 0.05 })
      .wire('store.+', 'converter.out')
      .wire('store.-', 'converter.0v');
    flagged(b, RULE, { level: 'hazard', subject: b.id('store'), repairs: 1 });
    clean(bench().part('store', 'capacitor', 'seat', { farad: 0.001, ratedV: 16 }).wire('store.+', 'converter.out').wire('store.-', 'converter.0v'), RULE);
  });

  it('says nothing of a tap that nothing is joined to', () => {
    quiet(ground('lonely').part('feed30', 'feed-30', 'dash', {}, { owner: 'vehicle' }), RULE);
    clean(fused(), RULE);
  });
});
