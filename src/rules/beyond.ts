import { amps, two } from './defineRule.ts';

/**
 * What nothing in a build lives to reach: a chip is dead and solder soft at this heat (makers’ sheets, from memory); no fuse that
 * one fits here passes a fifth of this current for long, and no resistor takes a tenth of this power.
 */
export const BEYOND = { hotC: 200, amp: 200, watt: 100 } as const;

/** A current in words, as far as it can flow at all. */
export function flowing(amp: number): string {
  return amp > BEYOND.amp ? `more than ${BEYOND.amp} A` : amps(amp);
}

/** The same where it begins a sentence. */
export function flowingFirst(amp: number): string {
  return flowing(amp).replace(/^m/, 'M');
}

/** Heat in words, as far as a small part can give it off at all. */
export function heating(watt: number): string {
  return watt > BEYOND.watt ? `more than ${BEYOND.watt} W` : `${two(watt)} W`;
}
