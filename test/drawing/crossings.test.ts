import { describe, expect, it } from 'vitest';
import { crossings } from '../../src/drawing/crossings.ts';

const lying = [0, 50, 100, 50];
const upright = [50, 0, 50, 100];

describe('crossings', () => {
  it('belong to the later wire', () => {
    expect(crossings([lying, upright])).toEqual([[], [{ x: 50, y: 50, under: 0 }]]);
    expect(crossings([upright, lying])).toEqual([[], [{ x: 50, y: 50, under: 0 }]]);
  });

  it('are none where wires only touch, run in parallel, or cross themselves', () => {
    expect(crossings([lying, [50, 50, 50, 100]]).flat()).toEqual([]);
    expect(crossings([lying, [0, 60, 100, 60]]).flat()).toEqual([]);
    expect(crossings([[0, 50, 100, 50, 100, 0, 50, 0, 50, 100]]).flat()).toEqual([]);
  });

  it('come in order along a wire that passes over several', () => {
    const many = [upright, [20, 0, 20, 100], [80, 0, 80, 100], lying];
    expect(crossings(many)[3]).toEqual([
      { x: 20, y: 50, under: 1 },
      { x: 50, y: 50, under: 0 },
      { x: 80, y: 50, under: 2 },
    ]);
  });

  it('can be asked for only those in which some wires take part, above or below', () => {
    const three = [lying, upright, [60, 0, 60, 100]];
    expect(crossings(three, new Set([2]))).toEqual([[], [], [{ x: 60, y: 50, under: 0 }]]);
    expect(crossings(three, new Set([0]))).toEqual([[], [{ x: 50, y: 50, under: 0 }], [{ x: 60, y: 50, under: 0 }]]);
    expect(crossings([upright, lying], new Set([0]))).toEqual([[], [{ x: 50, y: 50, under: 0 }]]);
  });
});
