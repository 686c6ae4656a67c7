import { describe, expect, it } from 'vitest';
import { toScreen, toWorld } from '../../src/canvas/camera.ts';
import { EDGE_PX, edgeCursor, edgeShown, edgeUnder, headAt, onEdge } from '../../src/canvas/zoneEdge.ts';
import { ZONE } from '../../src/scene/layout.ts';

const VIEW = { w: 360, h: 540 };
const zone = (id: string, x: number, w: number) => ({ id, name: id, box: { x, y: 0, w, h: 500 }, leastW: 200, maxC: 60, bar: { x, y: 480, w, h: 8 } });
const ZONES = [zone('a', 0, 200), zone('b', 200, 300)];
const at = (left: number, zoom = 1) => ({ x: left + VIEW.w / 2 / zoom, y: 200, zoom });

describe('the edge of a zone under a finger', () => {
  // WCAG 2.2, success criterion 2.5.5: a target of 44 by 44 CSS pixels.
  it.each([
    ['in the view', at(0)],
    ['at its right side', at(-158)],
    ['at its left side', at(197)],
    ['in a small picture', at(0, 0.5)],
  ])('has 44 px on the glass %s', (_, camera) => {
    const px = Array.from({ length: VIEW.w }, (_, i) => i + 0.5).filter((x) => onEdge(ZONES[0]!, x, camera, VIEW));
    expect(px.length).toBe(44);
    const edge = toScreen(camera, VIEW, 200, 0).x;
    expect(px[0]).toBeLessThanOrEqual(edge);
    expect(px[px.length - 1]).toBeGreaterThanOrEqual(Math.min(edge, VIEW.w - 0.5));
  });

  it('is none when the edge is out of view', () => {
    expect(onEdge(ZONES[0]!, 1, at(210), VIEW)).toBe(false);
    expect(EDGE_PX.mouse).toBeGreaterThan(2);
  });
});

describe('the edge of a zone under a mouse', () => {
  it('is meant within reach on the glass, however large the picture', () => {
    expect(edgeUnder(ZONES, 200 + EDGE_PX.mouse - 1, at(0))).toBe('a');
    expect(edgeUnder(ZONES, 200 + EDGE_PX.mouse + 1, at(0))).toBeNull();
    expect(edgeUnder(ZONES, 200 + EDGE_PX.mouse + 1, at(0, 0.5))).toBe('a');
    expect(edgeUnder(ZONES, 0, at(0))).toBeNull();
    expect(edgeUnder([...ZONES, zone('c', 500, 3)], 502, at(0))).toBe('c');
  });
});

describe('what is drawn of it', () => {
  it('stays below names and lengths of runs', () => {
    expect(edgeShown(ZONES, null, 'a', at(0), VIEW)?.view.y).toBe(ZONE.head);
    expect(edgeShown(ZONES, null, 'a', { ...at(0), y: 5000 }, VIEW)?.view.y).toBe(5000 - 1.5 * VIEW.h);
    expect(edgeShown(ZONES, null, 'a', { ...at(0), y: -5000 }, VIEW)?.view.h).toBe(0);
  });

  it('is nothing until it is pointed at or its zone is chosen', () => {
    expect(edgeShown(ZONES, null, null, at(0), VIEW)).toBeNull();
    expect(edgeShown(ZONES, { zone: 'a', x: 200 }, null, at(0), VIEW)).toMatchObject({ x: 200, from: null, grip: null });
    expect(edgeShown(ZONES, null, 'a', at(0), VIEW)).toMatchObject({ x: 200, grip: { x: 200, y: 200 } });
  });

  it('keeps the grip in the view where the edge is at its side, and drops it where the edge is out of it', () => {
    const camera = at(-158);
    const grip = edgeShown(ZONES, null, 'a', camera, VIEW)?.grip;
    expect(toScreen(camera, VIEW, grip?.x ?? 0, 0).x).toBe(VIEW.w - 9);
    expect(edgeShown(ZONES, null, 'a', at(300), VIEW)?.grip).toBeNull();
  });

  it('goes with the hand, with the place it was taken from', () => {
    expect(edgeShown(ZONES, { zone: 'a', x: 260, from: 200 }, null, at(0), VIEW)).toMatchObject({ x: 260, from: 200 });
  });

  it('says by the pointer which ways it can go', () => {
    expect(edgeCursor(ZONES[0]!)).toBe('e-resize');
    expect(edgeCursor(ZONES[1]!)).toBe('col-resize');
  });
});

it('a zone is chosen by the strip with its name', () => {
  expect(headAt(ZONES, 210, 20)).toBe('b');
  expect(headAt(ZONES, 210, 90)).toBeNull();
  expect(headAt(ZONES, 600, 20)).toBeNull();
  expect(toWorld(at(0), VIEW, 0, 0).x).toBe(0);
});
