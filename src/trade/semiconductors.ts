/** Optocouplers, diodes, clamps and LEDs at 25 degrees C. SI units; source and basis per row. */
import type { Basis } from './basis.ts';

interface Row {
  readonly title: string;
  readonly source: string;
  readonly basis: Basis;
}

export type OptoType = '817a' | '817b' | '4n25' | '4n35';

export interface OptoFacts extends Row {
  /** Forward voltage of the LED, V, typical and maximum, at testA. */
  readonly vFTypV: number;
  readonly vFMaxV: number;
  readonly vFTestA: number;
  readonly maxA: number;
  /** Reverse voltage the LED stands, V. */
  readonly reverseV: number;
  /** Current transfer ratio (fraction) at ctrTestA. */
  readonly ctrMin: number;
  readonly ctrTyp: number;
  readonly ctrMax: number;
  readonly ctrTestA: number;
  readonly vCeSatMaxV: number;
  /** Collector current with the LED dark, A, maximum. */
  readonly darkA: number;
  readonly vCeMaxV: number;
}

const P817 = {
  vFTypV: 1.2,
  vFMaxV: 1.4,
  vFTestA: 0.02,
  maxA: 0.05,
  reverseV: 6,
  ctrTestA: 0.005,
  vCeSatMaxV: 0.2,
  darkA: 100e-9,
  vCeMaxV: 35,
  source: 'data sheets of the 817 type from two makers',
  basis: 'read',
} as const;
const DIP6 = { vFTypV: 1.2, vFMaxV: 1.5, vFTestA: 0.01, maxA: 0.06, ctrTestA: 0.01, darkA: 50e-9, vCeMaxV: 30 } as const;

/** Ageing and temperature: what is left of the least CTR, 0.7 for life and 0.7 for cold or heat (common practice). */
export const CTR_DERATING = 0.7 * 0.7;

export const OPTOS: Record<OptoType, OptoFacts> = {
  '817a': { title: '817 rank A', ...P817, ctrMin: 0.8, ctrTyp: 1.2, ctrMax: 1.6 },
  '817b': { title: '817 rank B', ...P817, ctrMin: 1.3, ctrTyp: 1.95, ctrMax: 2.6 },
  '4n25': {
    title: '4N25',
    ...DIP6,
    reverseV: 3,
    ctrMin: 0.2,
    ctrTyp: 0.7,
    ctrMax: 1.4,
    vCeSatMaxV: 0.5,
    source: '4N25 data sheets of two makers; reverse voltage the lowest of all makers (from memory), greatest CTR twice typical (assumed)',
    basis: 'read',
  },
  '4n35': {
    title: '4N35',
    ...DIP6,
    reverseV: 6,
    ctrMin: 1.0,
    ctrTyp: 1.5,
    ctrMax: 3.0,
    vCeSatMaxV: 0.3,
    source: '4N35 data sheet; reverse voltage, typical and greatest CTR from memory',
    basis: 'read',
  },
};

export type DiodeType = '1n4148' | '1n4007' | '1n5819' | 'schottky-60v-5a';

export interface DiodeFacts extends Row {
  readonly vFTypV: number;
  readonly vFMaxV: number;
  /** Current at which both hold, A. */
  readonly vFTestA: number;
  /** Emission coefficient of the diode law (from memory). */
  readonly n: number;
  /** Series resistance, ohm (from memory). */
  readonly ohm: number;
  readonly averageA: number;
  readonly surgeA: number;
  /** Repetitive peak reverse voltage, V. */
  readonly reverseV: number;
}

export const DIODES: Record<DiodeType, DiodeFacts> = {
  '1n4148': {
    title: '1N4148',
    vFTypV: 0.72,
    vFMaxV: 1.0,
    vFTestA: 0.01,
    n: 1.9,
    ohm: 0.6,
    averageA: 0.15,
    surgeA: 1,
    reverseV: 100,
    source: '1N4148 data sheet; typical forward voltage from a course note, surge from memory',
    basis: 'read',
  },
  '1n4007': {
    title: '1N4007',
    vFTypV: 0.93,
    vFMaxV: 1.1,
    vFTestA: 1,
    n: 1.8,
    ohm: 0.04,
    averageA: 1,
    surgeA: 30,
    reverseV: 1000,
    source: '1N4001 to 1N4007 data sheet; forward voltage from memory',
    basis: 'read',
  },
  '1n5819': {
    title: '1N5819',
    vFTypV: 0.45,
    vFMaxV: 0.6,
    vFTestA: 1,
    n: 1.05,
    ohm: 0.1,
    averageA: 1,
    surgeA: 30,
    reverseV: 40,
    source: '1N5819 data sheet: too little reverse voltage for the vehicle side',
    basis: 'read',
  },
  'schottky-60v-5a': {
    title: 'Schottky 60 V 5 A',
    vFTypV: 0.55,
    vFMaxV: 0.65,
    vFTestA: 5,
    n: 1.05,
    ohm: 0.02,
    averageA: 5,
    surgeA: 150,
    reverseV: 60,
    source: 'data sheets of the 60 V 5 A Schottky class',
    basis: 'from memory',
  },
};

export type ClampType = '15v' | '18v' | '24v' | '24v-1500w' | '28v' | '33v' | '33v-1500w' | '33v-load-dump';

export interface ClampFacts extends Row {
  readonly standoffV: number;
  readonly brMinV: number;
  readonly brMaxV: number;
  readonly clampV: number;
  /** Peak current at clampV, 10/1000 us, A. */
  readonly peakA: number;
  readonly pulseW: number;
  /** What one pulse may put into it, J: rated pulse power x 1.44 ms; the load-dump class is rated with 10/10 000 us. */
  readonly energyJ: number;
}

const clamp = (
  title: string,
  standoffV: number,
  brMinV: number,
  brMaxV: number,
  clampV: number,
  peakA: number,
  pulseW: number,
  basis: Basis,
  energyJ = pulseW * 1.44e-3,
): ClampFacts => ({
  title,
  standoffV,
  brMinV,
  brMaxV,
  clampV,
  peakA,
  pulseW,
  energyJ,
  basis,
  source: 'transient suppressor data sheets, 5 % types (600 W, 1500 W and 6600 W sizes)',
});

export const CLAMPS: Record<ClampType, ClampFacts> = {
  '15v': clamp('15 V, 600 W', 15, 16.7, 18.5, 24.4, 24.6, 600, 'from memory'),
  '18v': clamp('18 V, 600 W', 18, 20.0, 22.1, 29.2, 20.5, 600, 'from memory'),
  '24v': clamp('24 V, 600 W', 24, 26.7, 29.5, 38.9, 15.4, 600, 'read'),
  '24v-1500w': clamp('24 V, 1500 W', 24, 26.7, 29.5, 38.9, 38.6, 1500, 'from memory'),
  '28v': clamp('28 V, 600 W', 28, 31.1, 34.4, 45.4, 13.2, 600, 'from memory'),
  '33v': clamp('33 V, 600 W', 33, 36.7, 40.6, 53.3, 11.3, 600, 'from memory'),
  '33v-1500w': clamp('33 V, 1500 W', 33, 36.7, 40.6, 53.3, 28.2, 1500, 'from memory'),
  '33v-load-dump': clamp('33 V, load-dump class', 33, 36.7, 40.6, 53.3, 124, 6600, 'from memory', 75),
};

export type LedColour = 'infrared' | 'red' | 'yellow' | 'green' | 'pure-green' | 'blue' | 'white';

export interface LedFacts {
  readonly title: string;
  readonly hex: string;
  readonly minV: number;
  readonly typV: number;
  readonly maxV: number;
  readonly basis: Basis;
}

/** Forward voltage at 20 mA. Basis: typical of red, blue and white read in part descriptions; limits from memory. */
export const LEDS: Record<LedColour, LedFacts> = {
  infrared: { title: 'Infrared', hex: '#6b4a4a', minV: 1.1, typV: 1.2, maxV: 1.5, basis: 'from memory' },
  red: { title: 'Red', hex: '#c8322d', minV: 1.8, typV: 2.0, maxV: 2.4, basis: 'read' },
  yellow: { title: 'Yellow', hex: '#d9b21f', minV: 1.9, typV: 2.1, maxV: 2.5, basis: 'from memory' },
  green: { title: 'Green', hex: '#3f8f3c', minV: 1.9, typV: 2.1, maxV: 2.5, basis: 'from memory' },
  'pure-green': { title: 'Pure green', hex: '#2f9a5a', minV: 2.8, typV: 3.2, maxV: 3.6, basis: 'from memory' },
  blue: { title: 'Blue', hex: '#2f6db5', minV: 2.8, typV: 3.2, maxV: 3.6, basis: 'read' },
  white: { title: 'White', hex: '#e9e6dc', minV: 2.8, typV: 3.2, maxV: 3.6, basis: 'read' },
};

/** LED current limit when the part's own figure is unknown, A (read). */
export const LED_MAX_A = 0.02;
