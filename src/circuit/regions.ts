import { flowOf, portVolts } from './amps.ts';
import type { Network } from './network.ts';
import type { Element, Solution } from './types.ts';

/** A junction counts as conducting above this, A. */
const CONDUCTS_A = 1e-6;

/**
 * In which part of its law every non-linear element works, as one character each: regulators off, blocked, regulating,
 * dropping out or limiting; junctions blocking or conducting; transistors saturated or not; loads fed or not.
 */
export function regions(network: Network, elements: readonly Element[], solution: Solution): string {
  let text = '';
  for (const e of elements) {
    const [v1, v2] = portVolts(network, e, solution);
    text += regionOf(e, v1, v2);
  }
  return text;
}

function regionOf(e: Element, v1: number, v2: number): string {
  switch (e.kind) {
    case 'diode':
      return flowOf(e, v1, 0).i1 > CONDUCTS_A ? 'c' : '-';
    case 'zener':
      return v1 > e.vBr ? 'b' : flowOf(e, v1, 0).i1 < -CONDUCTS_A ? 'c' : '-';
    case 'opto':
      if (flowOf(e, v1, v2).i1 <= CONDUCTS_A) return '-';
      return v2 < 2 * e.vCeSat ? 's' : 'c';
    case 'current':
    case 'power':
      return v1 < e.minV ? '-' : 'f';
    case 'stepdown':
    case 'linear': {
      if (e.kind === 'stepdown' && !e.on) return '-';
      const amp = -flowOf(e, v1, v2).i2;
      if (amp < CONDUCTS_A) return 'o';
      if (amp > 0.999 * e.limitA) return 'l';
      return v1 - e.dropV < e.setV ? 'd' : 'r';
    }
    default:
      return '';
  }
}
