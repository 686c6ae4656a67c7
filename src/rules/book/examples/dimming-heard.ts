import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A dimmed display beside sound without an isolator. */
function dimmed(dimHz: number): Bench {
  return bench()
    .part('sound', 'usb-sound', 'seat')
    .part('aux', 'radio-aux', 'dash', {}, { owner: 'vehicle' })
    .part('display', 'touch-display', 'seat', { dimHz })
    .set('computer', { gpio13Mode: 'out' })
    .wire('computer.usb1', 'sound.usb', { lengthM: 0.3 })
    .wire('sound.line', 'aux.aux', { lengthM: 2.3 })
    .wire('converter.out', 'display.5v', { lengthM: 0.3 })
    .wire('display.0v', 'converter.0v', { lengthM: 0.3 })
    .wire('computer.33', 'display.bl', { lengthM: 0.5 });
}

export const example: Example = {
  flagged: () => dimmed(1000),
  clean: () => dimmed(25_000),
  inOrder: 'Dimmed with 25 kHz, above what ears hear.',
};
