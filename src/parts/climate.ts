import { amount, yesNo } from './settings.ts';
import type { Setting } from './types.ts';

/** Setting keys of the temperatures that a part bears, degrees C, and of what bears less heat than the rest of it. */
export const CLIMATE = { least: 'bearsMinC', most: 'bearsMaxC', lithium: 'lithium' } as const;

/** The settings that say how cold and how hot a part may get, parked in the sun included. */
export function climateSettings(leastC: number, mostC: number, basis: string): Setting[] {
  return [
    amount(CLIMATE.least, 'Bears cold down to', 'degC', [-60, leastC, 20], basis, { rare: true }),
    amount(CLIMATE.most, 'Bears heat up to', 'degC', [30, mostC, 150], basis, { rare: true }),
    yesNo(CLIMATE.lithium, 'It has a lithium cell', false, 'assumed not; common practice, no source', {
      rare: true,
      help: 'Dash cameras, trackers, power banks and battery boards have one: it keeps them going for minutes without supply.',
    }),
  ];
}
