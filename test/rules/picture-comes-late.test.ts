import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { bench, fused, ground } from './plans.ts';

const RULE = 'picture-comes-late';
const reversing = (settings: Readonly<Record<string, number>> = {}) =>
  ground('reversing')
    .part('feed', 'feed-reverse', 'dash', { proven: true }, { owner: 'vehicle' })
    .part('fuse', 'blade-fuse', 'dash')
    .part('camera', 'camera', 'desk', settings)
    .part('screen', 'touch-display', 'dash')
    .wire('feed.out', 'fuse.1', { lengthM: 0.1 })
    .wire('fuse.2', 'camera.+', { lengthM: 3 })
    .wire('camera.-', 'ground.31', { lengthM: 3 })
    .wire('camera.video', 'screen.video', { lengthM: 3 });

describe('picture comes after the reversing has begun', () => {
  // Worked: 3 s start and 0.4 s delay are 3.4 s; always powered 0.3 s. One second is the aim.
  it('3 s start and 0.4 s delay behind the reversing lamp', () => {
    const b = reversing({ startS: 3, lateS: 0.4 });
    flagged(b, RULE, { level: 'advice', subject: b.id('camera'), figures: { 'until it shows': 3.4 }, repairs: 1 });
  });

  it('either side of a second', () => {
    clean(reversing({ startS: 0.6, lateS: 0.4 }), RULE);
    const b = reversing({ startS: 0.7, lateS: 0.4 });
    flagged(b, RULE, { level: 'advice', subject: b.id('camera') });
  });

  it('always powered: only the delay counts', () => {
    const always = (lateS: number) =>
      fused('always')
        .part('camera', 'camera', 'desk', { startS: 3, lateS })
        .part('screen', 'touch-display', 'dash')
        .wire('fuse.2', 'camera.+', { lengthM: 3 })
        .wire('camera.-', 'ground.31', { lengthM: 3 })
        .wire('camera.video', 'screen.video', { lengthM: 3 });
    clean(always(0.3), RULE);
    const b = always(1.2);
    flagged(b, RULE, { level: 'advice', subject: b.id('camera'), says: ['1.2 s'] });
    expect(repairsOf(b, RULE)).toEqual([]);
  });

  it('a relay that the reversing lamp works starts the camera no sooner; one on ignition does', () => {
    const behind = (line: 'feed-reverse' | 'feed-15') =>
      fused('behind a relay')
        .part('lamp', line, 'dash', { proven: true }, { owner: 'vehicle' })
        .part('lampFuse', 'blade-fuse', 'dash', { ratingA: 1 })
        .part('k', 'relay', 'dash', { suppression: 'diode' })
        .part('camera', 'camera', 'desk', { startS: 3, lateS: 0.4 })
        .part('screen', 'touch-display', 'dash')
        .wire('lamp.out', 'lampFuse.1', { lengthM: 0.1 })
        .wire('lampFuse.2', 'k.86', { lengthM: 0.3 })
        .wire('k.85', 'ground.31', { lengthM: 1 })
        .wire('fuse.2', 'k.30', { lengthM: 0.3 })
        .wire('k.87', 'camera.+', { lengthM: 3 })
        .wire('camera.-', 'ground.31', { lengthM: 3 })
        .wire('camera.video', 'screen.video', { lengthM: 3 });
    const b = behind('feed-reverse');
    flagged(b, RULE, { level: 'advice', subject: b.id('camera'), figures: { 'until it shows': 3.4 }, repairs: 1 });
    clean(behind('feed-15'), RULE);
  });

  it('a feed whose own lead from the battery is drawn is still the reversing lamp', () => {
    const b = reversing({ startS: 3, lateS: 0.4 }).wire('battery.+', 'feed.in', { owner: 'vehicle', lengthM: 2 });
    flagged(b, RULE, { level: 'advice', subject: b.id('camera'), figures: { 'until it shows': 3.4 } });
  });

  it('just either side of a second, told apart', () => {
    const b = reversing({ startS: 0.604, lateS: 0.4 });
    flagged(b, RULE, { level: 'advice', subject: b.id('camera'), says: ['1.004 s', '1 s is the aim'] });
    clean(reversing({ startS: 0.599, lateS: 0.4 }), RULE);
  });

  it('no camera, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
