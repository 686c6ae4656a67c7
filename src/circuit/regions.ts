import { acrossOf } from './amps.ts';
import { loadValues } from './load.ts';
import type { Network } from './network.ts';
import { lawOne, lawTwo, OUT, STRIDE } from './ports.ts';
import type { Element, Solution } from './types.ts';

/** A junction counts as conducting above this, A. */
const CONDUCTS_A = 1e-6;

/**
 * In which part of its law every non-linear element works, as one character each: regulators off, blocked, regulating,
 * dropping out or limiting; junctions blocking or conducting; transistors saturated or not; loads fed or not. Loads the
 * values of these elements into the network.
 */
export function regions(network: Network, elements: readonly Element[], solution: Solution): string {
  const across = acrossOf(solution);
  loadValues(network, elements);
  const { one, two, work } = network;
  let text = '';
  for (let k = 0; k < one.count; k++) {
    const v = across(one.from[k]!, one.to[k]!);
    lawOne(one.code[k]!, work.parOne, k * STRIDE, v);
    text += regionOfOne(elements[one.element[k]!]!, v, OUT[0]!);
  }
  for (let k = 0; k < two.count; k++) {
    const v = across(two.from[k]!, two.to[k]!);
    const w = across(two.from2[k]!, two.to2[k]!);
    lawTwo(two.code[k]!, work.parTwo, k * STRIDE, work.eta[k]!, v, w);
    text += regionOfTwo(elements[two.element[k]!]!, v, w, OUT[0]!, OUT[1]!);
  }
  return text;
}

function regionOfOne(e: Element, v: number, amp: number): string {
  switch (e.kind) {
    case 'diode':
      return amp > CONDUCTS_A ? 'c' : '-';
    case 'zener':
      return v > e.vBr ? 'b' : amp < -CONDUCTS_A ? 'c' : '-';
    case 'current':
    case 'power':
      return v < e.minV ? '-' : 'f';
    default:
      return '';
  }
}

function regionOfTwo(e: Element, v: number, w: number, inA: number, outA: number): string {
  switch (e.kind) {
    case 'opto':
      if (inA <= CONDUCTS_A) return '-';
      return w < 2 * e.vCeSat ? 's' : 'c';
    case 'stepdown':
    case 'linear': {
      if (e.kind === 'stepdown' && !e.on) return '-';
      const amp = -outA;
      if (amp < CONDUCTS_A) return 'o';
      if (amp > 0.999 * e.limitA) return 'l';
      return v - e.dropV < e.setV ? 'd' : 'r';
    }
    default:
      return '';
  }
}
