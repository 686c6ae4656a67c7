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

  it('a supply on a sound or picture plug ends it: 12 V of the relay, 5 V of the converter', () => {
    const sound = () => bench().part('sound', 'usb-sound', 'seat').wire('computer.usb1', 'sound.usb', { lengthM: 0.3 });
    const b = sound().wire('relay.87', 'sound.line', { lengthM: 0.3 }, 'wrong');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('wrong'), says: ['12 V', 'sound plug'], repairs: 1 });
    const five = sound().wire('converter.out', 'sound.line', { lengthM: 0.3 }, 'wrong');
    flagged(five, RULE, { level: 'hazard', subject: five.wireId('wrong'), says: ['5 V'], repairs: 1 });
    const picture = bench().part('screen', 'touch-display', 'seat').wire('relay.87', 'screen.video', { lengthM: 0.3 }, 'wrong');
    flagged(picture, RULE, { level: 'hazard', subject: picture.wireId('wrong'), says: ['12 V', 'picture plug'], repairs: 1 });
  });

  it('a sound plug at the radio, or over resistors that divide it, is where it belongs', () => {
    const sound = () =>
      bench().part('sound', 'usb-sound', 'seat').part('aux', 'radio-aux', 'dash', {}, { owner: 'vehicle' }).wire('computer.usb1', 'sound.usb');
    clean(sound().wire('sound.line', 'aux.aux', { lengthM: 2 }), RULE);
    clean(sound().part('r', 'resistor', 'dash', { ohm: 10_000 }).wire('sound.line', 'r.1').wire('r.2', 'aux.aux'), RULE);
  });

  it('no picture, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
