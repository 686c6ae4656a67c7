import type { Element } from './types.ts';

/** The element with one figure multiplied; a curve of points is multiplied in its ordinates. Throws when it has no such figure. */
export function scaled(element: Element, param: string, factor: number): Element {
  const figures = element as unknown as Record<string, unknown>;
  const value = figures[param];
  if (typeof value === 'number') return { ...element, [param]: value * factor } as Element;
  if (Array.isArray(value)) {
    const points = value as readonly (readonly [number, number])[];
    return { ...element, [param]: points.map(([x, y]) => [x, y * factor]) } as unknown as Element;
  }
  throw new Error(`element ${element.id} (${element.kind}) has no figure ${param}`);
}

/** Size of a figure of an element; 1 for a curve. */
export function figure(element: Element, param: string): number {
  const value = (element as unknown as Record<string, unknown>)[param];
  return typeof value === 'number' ? value : 1;
}

/** The factors at both ends of a tolerance: 0.02 is [0.98, 1.02]; a pair is taken as it is. */
export function cornerFactors(tolerance: number | readonly [number, number]): readonly [down: number, up: number] {
  return typeof tolerance === 'number' ? [1 - tolerance, 1 + tolerance] : tolerance;
}
