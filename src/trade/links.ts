/** How far data, picture and bus leads reach, and what they lose. SI units; basis per figure. */
import { type Basis, demand, demandNumber } from './basis.ts';

export type PictureLink = 'composite' | 'usb' | 'hdmi' | 'ribbon';

export interface PictureLinkFacts {
  readonly title: string;
  /** Longest passive lead that works for sure, and the longest that works at all, m. */
  readonly sureM: number;
  readonly mostM: number;
  readonly basis: Basis;
}

/** Picture leads by their plug. USB 2.0 from summaries of its chapter 7; the others from memory and practice. */
export const PICTURE_LINKS: Record<PictureLink, PictureLinkFacts> = {
  composite: { title: 'composite picture over coaxial lead', sureM: 30, mostM: 30, basis: 'from memory' },
  usb: { title: 'USB picture', sureM: 5, mostM: 5, basis: 'read' },
  hdmi: { title: 'digital picture plug', sureM: 5, mostM: 5, basis: 'from memory' },
  ribbon: { title: 'flat ribbon', sureM: 0.3, mostM: 1, basis: 'from memory' },
};

/** Picture delay after which it is of no use when reversing, s (common practice, no source). */
export const PICTURE_LATE_S = 1;
/** Makers round the least supply they print; so much below it is not judged, as share of the nominal volts (judgement). */
export const LEAST_SUPPLY_SLACK = 0.03;

/** Near a source of strong pulses USB is led no further than this, m (common practice, no source). */
export const USB_NEAR_NOISE_M = 3;

/** Burst of one time slot: what the voltage at the modem falls by, V. */
export interface Burst {
  readonly amp: number;
  readonly seconds: number;
  /** Capacitor at the modem; 0 = none. */
  readonly farad: number;
  readonly esrOhm: number;
}

/**
 * Dip behind a stiff supply, V: the path's resistance carries what the capacitor does not give, which it does for
 * `(R + ESR) C`. Never less than both resistances side by side.
 */
export function burstDipV(burst: Burst, pathOhm: number): number {
  demandNumber(pathOhm, 0, 1e3, 'Path in ohm');
  const full = burst.amp * pathOhm;
  if (burst.farad <= 0 || pathOhm === 0) return full;
  const { esrOhm, farad, seconds, amp } = burst;
  const risen = full * (1 - Math.exp(-seconds / ((pathOhm + esrOhm) * farad)));
  return Math.min(full, Math.max(risen, (amp * pathOhm * esrOhm) / (pathOhm + esrOhm)));
}

/** Dip behind a port that gives no more than `limitA`, V: the capacitor alone gives the rest. */
export function limitedDipV(burst: Burst, limitA: number): number {
  demand(burst.amp > limitA, 'Burst must be above what the port gives', burst.amp);
  if (burst.farad <= 0) return Number.POSITIVE_INFINITY;
  return ((burst.amp - limitA) * burst.seconds) / burst.farad + burst.amp * burst.esrOhm;
}

/** I2C: least rise time from 0.3 to 0.7 of the rail is 0.8473 R C; limits and bus capacitance of its specification (UM10204, from memory). */
export const I2C = {
  riseFactor: 0.8473,
  maxFarad: 400e-12,
  /** Clock, Hz, and longest rise time, s. */
  slow: { hz: 100e3, riseS: 1000e-9 },
  fast: { hz: 400e3, riseS: 300e-9 },
  /** Each part on the bus, F; and cable, F per metre: the upper end of 50 to 100 pF/m. */
  partFarad: 10e-12,
  cableFaradPerM: 100e-12,
} as const;

/** Capacitance of an I2C bus, F. */
export function i2cFarad(lengthM: number, parts: number): number {
  demandNumber(lengthM, 0, 1e4, 'Length in m');
  return I2C.cableFaradPerM * lengthM + I2C.partFarad * parts;
}

/** Rise time of an I2C line, s. */
export function i2cRiseS(pullOhm: number, farad: number): number {
  return I2C.riseFactor * pullOhm * farad;
}

/** Longest leads of the other short-reach buses, m: SPI from practice, one-wire from makers' notes (from memory). */
export const BUS_REACH_M = { spi: 0.3, 'one-wire': 10 } as const;

export type SerialLevel = '3v3' | '5v' | 'rs232';

/** Serial lines while nothing is sent, V, and what drives them, ohm: RS-232 (TIA-232, from memory) rests negative. */
export const SERIAL_LEVELS: Record<SerialLevel, { readonly title: string; readonly idleV: number; readonly ohm: number }> = {
  '3v3': { title: '3.3 V levels', idleV: 3.3, ohm: 100 },
  '5v': { title: '5 V levels', idleV: 5, ohm: 100 },
  rs232: { title: '±12 V levels (RS-232)', idleV: -9, ohm: 300 },
};
