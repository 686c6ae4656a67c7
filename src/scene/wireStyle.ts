import type { Ink } from '../drawing/types.ts';
import { PAIRED_FORMS, type TerminalForm } from '../parts/types.ts';
import type { Wire } from '../plan/types.ts';

export interface WireStyle {
  readonly ink: Ink;
  readonly stripe: Ink | null;
  readonly width: number;
}

/** Drawn width by conductor size: 1.6 u at 0.22 mm² to 5 u at 6 mm², evenly by ratio, so that each size shows. */
export function wireWidth(areaMm2: number): number {
  const share = Math.log(areaMm2 / 0.22) / Math.log(6 / 0.22);
  return Math.max(1.2, Math.min(6.5, 1.6 + 3.4 * share));
}

/**
 * How a wire looks: insulation colour and stripe, thickness by size. The vehicle's own leads are thin and grey. A
 * cable between two plugs is a sheathed pair. A wire without size or colour yet is plain grey.
 */
export function wireStyle(wire: Wire, from: TerminalForm | undefined, to: TerminalForm | undefined): WireStyle {
  if (wire.owner === 'vehicle') return { ink: 'vehicle', stripe: null, width: 1.5 };
  if (from && to && PAIRED_FORMS.has(from) && PAIRED_FORMS.has(to)) return { ink: 'soft', stripe: 'paper', width: 5 };
  return {
    ink: wire.colour ? `wire-${wire.colour}` : 'soft',
    stripe: wire.stripe ? `wire-${wire.stripe}` : null,
    width: wire.areaMm2 === undefined ? 2 : wireWidth(wire.areaMm2),
  };
}

/** Is this a cable's look (drawn with a pale core instead of a dashed stripe)? */
export function isCable(style: WireStyle): boolean {
  return style.stripe === 'paper';
}
