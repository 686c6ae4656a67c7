import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** Sound from the computer to the radio, straight. */
function sound(outV: number, maxV: number): Bench {
  return bench()
    .part('sound', 'usb-sound', 'seat', { outV })
    .part('aux', 'radio-aux', 'dash', { maxV }, { owner: 'vehicle' })
    .wire('computer.usb1', 'sound.usb', { lengthM: 0.3 })
    .wire('sound.line', 'aux.aux', { lengthM: 2.3 });
}

export const example: Example = {
  flagged: () => sound(2, 0.5),
  clean: () => sound(0.5, 0.5),
  inOrder: 'The level is set to what the input takes.',
};
