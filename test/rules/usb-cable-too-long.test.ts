import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, withHub } from './plans.ts';

const RULE = 'usb-cable-too-long';

const reader = (lengthM: number) => bench().part('reader', 'usb-device', 'desk').wire('computer.usb1', 'reader.usb', { lengthM, areaMm2: 0.5 });
const cabled = (lengthM: number, fast: boolean) =>
  bench()
    .part('reader', 'usb-device', 'desk')
    .part('cable', 'usb-cable', 'desk', { lengthM, fast })
    .wire('computer.usb1', 'cable.host')
    .wire('cable.device', 'reader.usb');

describe('USB cable too long', () => {
  // 5 m: USB 2.0, chapter 7, from summaries of connector makers.
  it('6.5 m to the rear; 5 m and 4 m pass', () => {
    const b = reader(6.5);
    flagged(b, RULE, { level: 'fault', subject: b.id('reader'), figures: { cable: 6.5, most: 5 } });
    const just = reader(5.1);
    flagged(just, RULE, { level: 'fault', subject: just.id('reader') });
    clean(reader(5), RULE);
    clean(reader(4), RULE);
  });

  // 3 m: USB 3 with 26 gauge, second-hand figure.
  it('USB 3 reaches 3 m; as USB 2 the same length will do', () => {
    const b = cabled(4, true);
    flagged(b, RULE, { level: 'fault', subject: b.id('reader'), figures: { cable: 4, most: 3 }, repairs: 1 });
    clean(cabled(3, true), RULE);
    clean(cabled(4, false), RULE);
  });

  it('what joins a drawn cable to its ends counts as plugs', () => {
    clean(cabled(5, false), RULE);
    const b = cabled(5.5, false);
    flagged(b, RULE, { level: 'fault', subject: b.id('reader'), figures: { cable: 5.5 } });
  });

  it('near ignition: advice from 3 m on', () => {
    const b = reader(4).zone('desk', { kind: 'engine-bay' });
    flagged(b, RULE, { level: 'advice', subject: b.id('reader'), says: ['engine bay'] });
    clean(reader(2.9).zone('desk', { kind: 'engine-bay' }), RULE);
  });

  // 6.5 m of the worked case as 4 m and 2.5 m: a hub sends on afresh, so each side may have its 5 m (USB 2.0, chapter 7).
  it('begins again behind a hub or an active cable in mid-run', () => {
    const halves = (before: number, behind: number) =>
      bench()
        .part('mid', 'usb-hub', 'seat', { ports: 1, ownSupply: false })
        .part('reader', 'usb-device', 'desk')
        .wire('computer.usb1', 'mid.up', { lengthM: before, areaMm2: 0.5 })
        .wire('mid.d1', 'reader.usb', { lengthM: behind, areaMm2: 0.5 });
    clean(halves(4, 2.5), RULE);
    clean(halves(5, 5), RULE);
    const before = halves(5.2, 1);
    flagged(before, RULE, { level: 'fault', subject: before.id('mid'), figures: { cable: 5.2, most: 5 } });
    const behind = halves(1, 5.2);
    flagged(behind, RULE, { level: 'fault', subject: behind.id('reader'), figures: { cable: 5.2, most: 5 } });
    const fed = withHub(bench()).part('reader', 'usb-device', 'desk').wire('hub.d1', 'reader.usb', { lengthM: 5.2, areaMm2: 0.5 }, 'run');
    flagged(fed, RULE, { level: 'fault', subject: fed.id('reader'), figures: { cable: 5.2 } });
    clean(fed.wireSet('run', { lengthM: 4.9 }), RULE);
  });

  it('no USB, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
