import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'picture-lead-too-long';

/** A screen on the bench's converter. */
const withScreen = (b: Bench): Bench => b.part('screen', 'touch-display', 'seat').wire('converter.out', 'screen.5v').wire('screen.0v', 'converter.0v');

const seen = (link: string, lengthM: number) =>
  withScreen(bench())
    .part('camera', 'camera', 'desk', { link })
    .wire('fuse.2', 'camera.+', { lengthM: 7, areaMm2: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 7, areaMm2: 1 })
    .wire('camera.video', 'screen.video', { lengthM }, 'picture');

/** Sender and receiver, fed and joined to camera and screen. */
const link = (lengthM: number) =>
  seen('composite', 0.3)
    .cut('picture')
    .part('sender', 'video-sender', 'desk')
    .part('receiver', 'video-receiver', 'seat')
    .wire('fuse.2', 'sender.+', { lengthM: 7, areaMm2: 1 })
    .wire('sender.-', 'ground.31', { lengthM: 7, areaMm2: 1 })
    .wire('fuse.2', 'receiver.+')
    .wire('receiver.-', 'converter.gnd')
    .wire('camera.video', 'sender.video', { lengthM: 0.3 })
    .wire('receiver.video', 'screen.video', { lengthM: 0.3 })
    .wire('sender.link', 'receiver.link', { lengthM }, 'long');

describe('picture lead too long for its kind', () => {
  // Reaches: from memory of makers' pages, as the source line says.
  it('2 m of ribbon to the tailgate', () => {
    const b = seen('ribbon', 2);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('picture'), figures: { lead: 2, reaches: 1 }, repairs: 1 });
  });

  it('a ribbon of 0.3 m passes, of 0.5 m it depends', () => {
    clean(seen('ribbon', 0.3), RULE);
    const b = seen('ribbon', 0.5);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('picture'), figures: { reaches: 0.3 }, repairs: 1 });
  });

  it('14 m of composite pass, 31 m do not', () => {
    clean(seen('composite', 14), RULE);
    clean(seen('composite', 30), RULE);
    const b = seen('composite', 31);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('picture'), repairs: 0 });
  });

  it('a digital plug: 5 m, also from the computer to its screen', () => {
    const b = seen('hdmi', 5.5);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('picture'), repairs: 1 });
    const far = withScreen(bench()).wire('computer.video', 'screen.video', { lengthM: 6 }, 'picture');
    flagged(far, RULE, { level: 'fault', subject: far.wireId('picture') });
    clean(withScreen(bench()).wire('computer.video', 'screen.video', { lengthM: 5 }), RULE);
  });

  it('sender and receiver reach what their maker says, 15 m by default', () => {
    clean(link(15), RULE);
    const b = link(16);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('long'), figures: { reaches: 15 } });
    clean(link(16).set('sender', { reachM: 50 }), RULE);
  });

  it('a hand’s width beyond is told apart from what it reaches', () => {
    const just: readonly (readonly [string, number, 'fault' | 'advice', string])[] = [
      ['ribbon', 0.31, 'advice', '0.31 m'],
      ['ribbon', 1, 'advice', '1 m'],
      ['ribbon', 1.01, 'fault', '1.01 m'],
      ['hdmi', 5.01, 'fault', '5.01 m'],
      ['usb', 5.01, 'fault', '5.01 m'],
      ['composite', 30.01, 'fault', '30.01 m'],
    ];
    for (const [kind, lengthM, level, says] of just) {
      const b = seen(kind, lengthM);
      flagged(b, RULE, { level, subject: b.wireId('picture'), says: [says] });
    }
    clean(seen('usb', 5), RULE);
  });

  it('no picture, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
