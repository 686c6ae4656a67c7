import { describe, expect, it, vi } from 'vitest';
import { type Camera, toScreen } from '../../src/canvas/camera.ts';
import { Pixels } from '../../src/canvas/pixels.ts';

vi.stubGlobal('cancelAnimationFrame', () => undefined);

/** A surface over one camera, as the store keeps it from one surface to the next. */
function surface(camera: Camera): { readonly pixels: Pixels; readonly kept: () => Camera } {
  let kept = camera;
  const pixels = new Pixels(
    camera,
    () => null,
    (c) => {
      kept = c;
    },
  );
  return { pixels, kept: () => kept };
}

describe('the view', () => {
  it('stands still when its surface changes size', () => {
    const { pixels } = surface({ x: 400, y: 300, zoom: 0.8 });
    pixels.resize({ w: 880, h: 510 }, 320);
    const before = pixels.screen(100, 100);
    pixels.resize({ w: 880, h: 498 }, 320);
    expect(pixels.screen(100, 100)).toEqual(before);
  });

  it('is the same when the surface comes back (from the wiring sheet) and only then finds its size', () => {
    const first = surface({ x: 400, y: 300, zoom: 0.8 });
    first.pixels.resize({ w: 880, h: 510 }, 320);
    first.pixels.resize({ w: 880, h: 498 }, 320);
    const before = first.pixels.screen(100, 100);
    first.pixels.unmount();
    const second = surface(first.kept());
    for (const h of [510, 498]) second.pixels.resize({ w: 880, h }, 320);
    expect(second.pixels.screen(100, 100)).toEqual(before);
  });

  it('is kept also when it was still moving', () => {
    const first = surface({ x: 400, y: 300, zoom: 0.8 });
    first.pixels.resize({ w: 880, h: 500 }, 320);
    first.pixels.move({ x: 450, y: 300, zoom: 0.8 });
    const before = first.pixels.screen(100, 100);
    first.pixels.unmount();
    expect(toScreen(first.kept(), { w: 880, h: 500 }, 100, 100)).toEqual(before);
  });
});
