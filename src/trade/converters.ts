/** Step-down converter classes and the linear regulator, SI units. */
import type { Basis } from './basis.ts';

export interface ConverterFacts {
  readonly title: string;
  readonly setV: number;
  readonly setTol: number;
  readonly ratedA: number;
  readonly limitMinA: number;
  readonly limitMaxA: number;
  /** Least difference between input and output at rated current. */
  readonly dropV: number;
  /** Starts above, stops below. */
  readonly startV: number;
  readonly stopV: number;
  /** Highest input for ever, and for a moment. */
  readonly inMaxV: number;
  readonly absMaxV: number;
  /** Efficiency at rated current and at 0.1 A, without the quiescent current. */
  readonly etaFull: number;
  readonly etaLight: number;
  readonly quiescentA: number;
  readonly standbyA: number;
  readonly outOhm: number;
  readonly reverseGuard: boolean;
  readonly trimmer: boolean;
  readonly rthKPerW: number;
  readonly tjMaxC: number;
  /** How long it stays off after an overload before it tries again, s; 0 = it holds its limit instead. */
  readonly pauseS: number;
  readonly basis: Basis;
  readonly source: string;
}

export type ConverterClass = '60v-6a' | '75v-6a' | 'older-3a' | 'trimmer-3a' | 'low-idle-3a';

const OLDER: Omit<ConverterFacts, 'title'> = {
  setV: 5,
  setTol: 0.04,
  ratedA: 3,
  limitMinA: 3.6,
  limitMaxA: 6.9,
  dropV: 1.5,
  startV: 7,
  stopV: 6.5,
  inMaxV: 40,
  absMaxV: 45,
  etaFull: 0.8,
  etaLight: 0.75,
  quiescentA: 0.01,
  standbyA: 0.0002,
  outOhm: 0.02,
  reverseGuard: false,
  trimmer: false,
  rthKPerW: 50,
  tjMaxC: 125,
  pauseS: 0,
  basis: 'read',
  source: 'data sheet of the 2596 class (150 kHz, bipolar switch)',
};
const WIDE: Omit<ConverterFacts, 'title'> = {
  setV: 5.12,
  setTol: 0.02,
  ratedA: 6,
  limitMinA: 6.6,
  limitMaxA: 8,
  dropV: 1.5,
  startV: 7.5,
  stopV: 6.7,
  inMaxV: 36,
  absMaxV: 60,
  etaFull: 0.88,
  etaLight: 0.8,
  quiescentA: 0.003,
  standbyA: 0.0001,
  outOhm: 0.01,
  reverseGuard: true,
  trimmer: false,
  rthKPerW: 3,
  tjMaxC: 115,
  pauseS: 0.05,
  basis: 'common practice',
  source: 'typical of vehicle-grade step-down boxes; take the maker’s own figures when known',
};

export const CONVERTERS: Record<ConverterClass, ConverterFacts> = {
  '60v-6a': { title: '60 V class 6 A', ...WIDE },
  '75v-6a': { title: '75 V class 6 A', ...WIDE, startV: 9, stopV: 8.2, inMaxV: 75, absMaxV: 80 },
  'older-3a': { title: 'Older module 3 A', ...OLDER },
  'trimmer-3a': {
    title: 'Trimmer module 3 A, 24 V',
    ...OLDER,
    startV: 6.5,
    stopV: 6,
    inMaxV: 24,
    absMaxV: 28,
    etaFull: 0.9,
    etaLight: 0.82,
    trimmer: true,
    quiescentA: 0.001,
    basis: 'from memory',
    source: 'typical of synchronous 5 V 3 A trimmer modules',
  },
  'low-idle-3a': {
    title: 'Low-idle automotive 3 A',
    ...WIDE,
    ratedA: 3,
    limitMinA: 3.5,
    limitMaxA: 5,
    dropV: 0.6,
    startV: 5.8,
    stopV: 4.5,
    inMaxV: 36,
    absMaxV: 42,
    etaFull: 0.9,
    etaLight: 0.88,
    quiescentA: 24e-6,
    standbyA: 2e-6,
    rthKPerW: 30,
    tjMaxC: 125,
    basis: 'from memory',
    source: 'typical of automotive pulse-skipping step-down parts',
  },
};

/** The 7805. Source: L7800 series data sheet (read); typical quiescent current from memory; thermal resistance the cautious of three printed figures. */
export const LINEAR_7805 = {
  setV: 5,
  setTol: 0.04,
  ratedA: 1,
  limitMaxA: 1.5,
  dropV: 2,
  absMaxV: 35,
  quiescentA: 0.0042,
  quiescentMaxA: 0.008,
  rthKPerW: 65,
  tjMaxC: 125,
} as const;

/** A converter that cannot bring its output up for so long switches off and tries again, s (common practice, no source). */
export const HICCUP_S = 0.01;
