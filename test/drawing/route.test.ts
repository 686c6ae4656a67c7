import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pushPiece } from '../../src/canvas/bendWire.ts';
import { inflate, overlaps } from '../../src/drawing/box.ts';
import { LaneMap } from '../../src/drawing/lanes.ts';
import { bendCount, lengthOf, simplify, throughBends } from '../../src/drawing/polyline.ts';
import { type RouteEnd, route, stretched } from '../../src/drawing/route.ts';
import { LaneSearch } from '../../src/drawing/search.ts';
import type { Box } from '../../src/drawing/types.ts';

const WORLD: Box = { x: 0, y: 0, w: 800, h: 600 };

function lanes(bodies: readonly Box[]): { map: LaneMap; search: LaneSearch } {
  const map = new LaneMap(WORLD);
  for (const b of bodies) map.block(b);
  return { map, search: new LaneSearch(map) };
}
const pieces = (line: readonly number[]): Box[] => {
  const out: Box[] = [];
  for (let i = 0; i + 3 < line.length; i += 2) {
    const [x0, y0, x1, y1] = [line[i] as number, line[i + 1] as number, line[i + 2] as number, line[i + 3] as number];
    out.push({ x: Math.min(x0, x1), y: Math.min(y0, y1), w: Math.abs(x1 - x0), h: Math.abs(y1 - y0) });
  }
  return out;
};
const rightAngled = (line: readonly number[]): boolean => pieces(line).every((p) => p.w === 0 || p.h === 0);

const left: Box = { x: 100, y: 200, w: 100, h: 60 };
const right: Box = { x: 500, y: 200, w: 100, h: 60 };
const out: RouteEnd = { x: 200, y: 230, side: 'right' };
const into: RouteEnd = { x: 500, y: 230, side: 'left' };

describe('router', () => {
  it('goes straight when it can', () => {
    const { map, search } = lanes([left, right]);
    expect(route(map, search, out, into)).toEqual([200, 230, 500, 230]);
  });

  it('takes two corners for two heights, one for a corner', () => {
    const { map, search } = lanes([left, right]);
    expect(bendCount(route(map, search, out, { ...into, y: 300 }))).toBe(2);
    expect(bendCount(route(map, search, out, { x: 400, y: 400, side: 'top' }))).toBe(1);
  });

  it('goes round a body in the way, a lane or more off it', () => {
    const wall: Box = { x: 300, y: 100, w: 60, h: 300 };
    const { map, search } = lanes([left, right, wall]);
    const line = route(map, search, out, into);
    expect(rightAngled(line)).toBe(true);
    expect(pieces(line).some((p) => overlaps(inflate(wall, 9), inflate(p, 0.1)))).toBe(false);
    expect(bendCount(line)).toBe(4);
  });

  it('keeps off wires that are there: parallel pieces at least 8 u apart', () => {
    const { map, search } = lanes([left, right]);
    const lines: number[][] = [];
    for (let i = 0; i < 3; i++) {
      const line = route(map, search, { ...out, y: 220 + 10 * i }, { ...into, y: 250 - 10 * i + 100 });
      map.mark(line);
      lines.push(line);
    }
    for (const a of lines)
      for (const b of lines) {
        if (a === b) continue;
        for (const p of pieces(a))
          for (const q of pieces(b)) {
            const parallel = (p.w === 0) === (q.w === 0);
            if (parallel) expect(overlaps(inflate(p, 3.99), inflate(q, 3.99))).toBe(false);
          }
      }
  });

  it('leaves a joint by any side', () => {
    const { map, search } = lanes([]);
    expect(route(map, search, { x: 300, y: 300, side: 'any' }, { x: 100, y: 300, side: 'right' })).toEqual([300, 300, 100, 300]);
    expect(route(map, search, { x: 300, y: 300, side: 'any' }, { x: 300, y: 100, side: 'bottom' })).toEqual([300, 300, 300, 100]);
  });

  it('is the same every time', () => {
    const bodies = [left, right, { x: 300, y: 100, w: 60, h: 300 }];
    const once = (): number[] => {
      const { map, search } = lanes(bodies);
      return route(map, search, out, { ...into, y: 250 });
    };
    expect(once()).toEqual(once());
  });

  it('always joins the two pads exactly, at right angles, whatever stands about', () => {
    const coord = (max: number) => fc.integer({ min: 2, max: max / 10 - 2 }).map((v) => v * 10);
    const body = fc.record({ x: coord(700), y: coord(500), w: fc.constant(60), h: fc.constant(40) });
    const end = fc.record({ x: coord(800), y: coord(600), side: fc.constantFrom('left', 'right', 'top', 'bottom', 'any') }) as fc.Arbitrary<RouteEnd>;
    fc.assert(
      fc.property(fc.array(body, { maxLength: 8 }), end, end, fc.constantFrom('quick' as const, 'full' as const), (bodies, a, b, effort) => {
        const { map, search } = lanes(bodies);
        const line = route(map, search, a, b, { effort });
        expect(rightAngled(line)).toBe(true);
        expect(line.slice(0, 2)).toEqual([a.x, a.y]);
        if (a.x !== b.x || a.y !== b.y) expect(line.slice(-2)).toEqual([b.x, b.y]);
      }),
      { numRuns: 300 },
    );
  });

  it('never finds a dearer way by searching in full than a quick look found', () => {
    const wall: Box = { x: 300, y: 60, w: 40, h: 400 };
    const { map, search } = lanes([left, right, wall]);
    const quick = route(map, search, out, into, { effort: 'quick' });
    const full = route(map, search, out, into, { effort: 'full' });
    expect(lengthOf(full) * 1 + bendCount(full) * 45).toBeLessThanOrEqual(lengthOf(quick) + bendCount(quick) * 45);
  });

  it('keeps corners placed by hand', () => {
    const { map, search } = lanes([left, right]);
    const bends = [
      { x: 250, y: 230 },
      { x: 250, y: 500 },
      { x: 450, y: 500 },
      { x: 450, y: 230 },
    ];
    expect(route(map, search, out, into, { bends })).toEqual([200, 230, 250, 230, 250, 500, 450, 500, 450, 230, 500, 230]);
  });

  it('keeps right angles between two pads at the rim of the lanes that share their first lane', () => {
    const { map, search } = lanes([]);
    for (const effort of ['quick', 'full'] as const) {
      const line = route(map, search, { x: 795, y: -300, side: 'right' }, { x: 810, y: 0, side: 'left' }, { effort });
      expect(rightAngled(line)).toBe(true);
      expect([...line.slice(0, 2), ...line.slice(-2)]).toEqual([795, -300, 810, 0]);
    }
  });

  it('pads off the raster are still met exactly', () => {
    const { map, search } = lanes([]);
    const line = route(map, search, { x: 203, y: 233, side: 'right' }, { x: 497, y: 347, side: 'left' });
    expect(rightAngled(line)).toBe(true);
    expect([...line.slice(0, 2), ...line.slice(-2)]).toEqual([203, 233, 497, 347]);
  });
});

describe('stretching', () => {
  const before = [200, 230, 250, 230, 250, 500, 450, 500, 450, 230, 500, 230];
  it('pulls the end pieces and leaves the middle', () => {
    expect(stretched(before, { ...out, x: 210, y: 260 }, into)).toEqual([210, 260, 250, 260, 250, 500, 450, 500, 450, 230, 500, 230]);
  });
  it('pushes the first corner on when the pad comes too near', () => {
    expect(stretched(before, { ...out, x: 280 }, into)).toEqual([280, 230, 290, 230, 290, 500, 450, 500, 450, 230, 500, 230]);
  });
  it('refuses lines with too few corners', () => {
    expect(stretched([200, 230, 250, 230, 250, 500, 500, 500], out, into)).toBeNull();
  });
});

describe('a drag', () => {
  const coord = (max: number) => fc.integer({ min: 2, max: max / 10 - 2 }).map((v) => v * 10);
  const side = fc.constantFrom('left' as const, 'right' as const, 'top' as const, 'bottom' as const);
  const to = fc.record({ x: coord(800), y: coord(600) });
  const body = fc.record({ x: coord(700), y: coord(500), w: fc.constant(60), h: fc.constant(40) });

  it('ends, and keeps right angles, from whatever right-angled line it begins with', () => {
    const line = fc
      .tuple(fc.array(to, { minLength: 3, maxLength: 6 }), fc.boolean())
      .map(([points, lying]) =>
        simplify(points.flatMap((p, i) => (i === 0 ? [p.x, p.y] : (i % 2 === 0) === lying ? [points[i - 1]?.x ?? 0, p.y] : [p.x, points[i - 1]?.y ?? 0]))),
      );
    const rightLine = line.filter((pts) => pts.length >= 4 && rightAngled(pts));
    fc.assert(
      fc.property(fc.array(body, { maxLength: 8 }), rightLine, side, side, to, (bodies, before, aSide, bSide, at) => {
        const { map, search } = lanes(bodies);
        const b = { x: before.at(-2) as number, y: before.at(-1) as number, side: bSide };
        const moved = route(map, search, { ...at, side: aSide }, b, { effort: 'quick', before });
        expect(rightAngled(moved)).toBe(true);
        expect(rightAngled(stretched(before, { ...at, side: aSide }, b) ?? [])).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  it('does not pull on a line that goes back through its own part', () => {
    // The first piece stands, though the pad looks to the left.
    const before = [780, 550, 780, 280, 710, 280, 710, 270, 700, 270];
    expect(stretched(before, { x: 820, y: 590, side: 'left' }, { x: 700, y: 270, side: 'right' })).toBeNull();
  });

  it('does not take a wire back through the part in hand, which is not on the map', () => {
    const { map, search } = lanes([left]);
    const line = route(map, search, { x: 500, y: 430, side: 'left' }, { x: 700, y: 100, side: 'right' }, { effort: 'quick' });
    expect(line[2]).toBeLessThan(500);
  });
});

describe('odd places', () => {
  // Off the raster, one on the other, outside the lanes and thousands of units away: a hand-written file may hold any.
  const place = fc.oneof(
    fc.integer({ min: -3, max: 83 }).map((v) => v * 10),
    fc.constantFrom(0, 10, 20),
    fc.double({ min: -500, max: 1500, noNaN: true }),
    fc.integer({ min: -100_000, max: 100_000 }),
  );
  const at = fc.record({ x: place, y: place });
  const pad = fc.record({ x: place, y: place, side: fc.constantFrom('left' as const, 'right' as const, 'top' as const, 'bottom' as const, 'any' as const) });
  const body = fc.record({ x: place, y: place, w: fc.constantFrom(0, 0.5, 60, 300), h: fc.constantFrom(0, 0.5, 60, 300) });

  it('get right-angled wires from pad to pad: routed, stretched, led through bends and pushed aside', () => {
    const sound = (line: readonly number[], a: RouteEnd, b: RouteEnd): void => {
      expect(rightAngled(line) && line.every(Number.isFinite)).toBe(true);
      expect([line[0], line[1], line.at(-2), line.at(-1)]).toEqual([a.x, a.y, b.x, b.y]);
    };
    fc.assert(
      fc.property(
        fc.array(body, { maxLength: 5 }),
        pad,
        pad,
        fc.boolean(),
        fc.array(at, { minLength: 1, maxLength: 4 }),
        place,
        (bodies, a, other, isSame, bends, by) => {
          const { map, search } = lanes(bodies);
          const b = isSame ? { ...other, x: a.x, y: a.y } : other;
          const line = route(map, search, a, b);
          sound(line, a, b);
          sound(route(map, search, a, b, { effort: 'quick', before: line }), a, b);
          const pulled = stretched(line, b, a);
          if (pulled) sound(pulled, b, a);
          const led = throughBends(a, b, bends);
          sound(led, a, b);
          for (let n = 0; n + 1 < led.length / 2; n++) sound(pushPiece(led, n, by, -by), a, b);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('lanes', () => {
  it('are free again after a wire or body is taken off', () => {
    const { map } = lanes([left]);
    const clean = { b: [...map.blocked], r: [...map.right], d: [...map.down] };
    map.block(right);
    map.mark([0, 100, 300, 100, 300, 400]);
    map.mark([0, 100, 300, 100, 300, 400], -1);
    map.block(right, -1);
    expect({ b: [...map.blocked], r: [...map.right], d: [...map.down] }).toEqual(clean);
  });
});
