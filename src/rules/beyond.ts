import { amps, two } from './defineRule.ts';

/**
 * What nothing in a build lives to reach: a chip is dead and solder soft at this heat (makers’ sheets, from memory); no fuse that
 * one fits here passes a fifth of this current for long, and no resistor takes a tenth of this power.
 */
export const BEYOND = { hotC: 200, amp: 200, watt: 100 } as const;

/** Rules whose findings mean nothing while a current that nothing limits flows somewhere: they fold under what lets it flow. */
export const SWEPT: ReadonlySet<string> = new Set([
  'battery-flat-too-soon',
  'camera-starved-at-night',
  'coil-will-not-pull-in',
  'converter-starves',
  'dip-not-bridged',
  'donor-overloaded',
  'feed-drop',
  'five-volt-window',
  'fuse-order',
  'fuse-too-small',
  'ground-lifts',
  'lamp-never-sleeps',
  'no-battery-guard',
  'parked-draw-too-high',
  'sense-ground-loaded',
  'stands-too-long',
  'starting-reboots-computer',
]);

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
