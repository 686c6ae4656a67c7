import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'plug-does-not-match';
const camera = (link: string, to: 'screen' | 'computer') =>
  bench().part('camera', 'camera', 'desk', { link }).part('screen', 'touch-display', 'dash').wire('camera.video', `${to}.video`, { lengthM: 0.3 }, 'picture');

describe('plug does not match the link', () => {
  it('composite or digital into a screen passes', () => {
    clean(camera('composite', 'screen'), RULE);
    clean(camera('hdmi', 'screen'), RULE);
  });

  it('a camera’s ribbon into a screen', () => {
    const b = camera('ribbon', 'screen');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('picture'), says: ['ribbon'], repairs: 1 });
  });

  it('two outputs joined: a camera at the computer’s picture socket', () => {
    const b = camera('composite', 'computer');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('picture'), says: ['both send'], repairs: 1 });
  });

  it('a long link that ends at a screen instead of its receiver', () => {
    const b = bench()
      .part('sender', 'video-sender', 'desk')
      .part('screen', 'touch-display', 'dash')
      .wire('sender.link', 'screen.video', { lengthM: 3 }, 'picture');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('picture'), says: ['other half'], repairs: 1 });
    clean(bench().part('sender', 'video-sender', 'desk').part('receiver', 'video-receiver', 'dash').wire('sender.link', 'receiver.link', { lengthM: 3 }), RULE);
  });

  it('a picture plug on something that takes no picture', () => {
    const b = bench().part('screen', 'touch-display', 'dash').wire('computer.video', 'screen.bl', { lengthM: 1 }, 'picture');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('picture'), says: ['no picture plug'], repairs: 1 });
  });

  it('no picture, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
