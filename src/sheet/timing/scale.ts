/**
 * The time axis of the key cycle. Cranking takes seconds and a hold takes minutes; on one even axis the first would be
 * a hair. So the axis is cut into stretches, each even in itself; a longer one is wider, but less so than it is longer.
 * Where nothing happens for long, the middle is squeezed. Every change of scale is marked on the axis.
 */
export interface Stretch {
  readonly fromS: number;
  readonly toS: number;
  readonly x0: number;
  readonly x1: number;
  /** Nothing happens here: squeezed to a fixed width. */
  readonly squeezed: boolean;
}

export interface Tick {
  readonly tS: number;
  readonly x: number;
  readonly label: string;
}

export interface TimeScale {
  readonly stretches: readonly Stretch[];
  readonly ticks: readonly Tick[];
  /** Where the scale changes. */
  readonly breaks: readonly number[];
  /** Place of a time; times outside lie on the nearer end. */
  x(tS: number): number;
  /** Time at a place; places outside are the nearer end. */
  t(x: number): number;
}

/** A gap without any moment is squeezed from this length on, s. */
const QUIET_S = 90;
/** So much of a quiet gap stays even at its two ends, s. */
const LEAD_S = 15;
const SQUEEZED_W = 30;
/** Width goes as this power of the length: 16 times as long is three times as wide. */
const POWER = 0.4;
/** No stretch is narrower than this share of them all, so that a key position of a second still has room for its name. */
const LEAST_SHARE = 0.1;
/** Two labels of the axis stand at least so far apart. */
const LABEL_W = 42;
const STEPS_S = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600];
/** Up to this length a strip counts in seconds only, s. */
const SECONDS_ONLY_S = 300;

/**
 * @param cuts times at which the scale may change, s
 * @param moments times at which something happens, s: no gap between two of them is squeezed unless it is long
 * @param from,to drawing units
 */
export function timeScale(cuts: readonly number[], moments: readonly number[], untilS: number, from: number, to: number): TimeScale {
  const inside = (list: readonly number[]): number[] => [...new Set(list.filter((t) => t > 0 && t < untilS))].sort((a, b) => a - b);
  const borders = [0, ...inside(cuts), untilS];
  const happens = inside([...moments, ...cuts]);
  const pieces = borders.slice(1).flatMap((toS, i) => cutQuiet(borders[i]!, toS, happens));
  const stretches = laidOut(pieces, from, to);
  return {
    stretches,
    ticks: ticksOf(stretches, untilS),
    breaks: stretches.slice(1).map((s) => s.x0),
    x: (tS) => {
      const s = stretches.find((p) => tS < p.toS) ?? stretches.at(-1)!;
      return s.x0 + share(tS, s.fromS, s.toS) * (s.x1 - s.x0);
    },
    t: (x) => {
      const s = stretches.find((p) => x < p.x1) ?? stretches.at(-1)!;
      return s.fromS + share(x, s.x0, s.x1) * (s.toS - s.fromS);
    },
  };
}

type Piece = Pick<Stretch, 'fromS' | 'toS' | 'squeezed'>;

function cutQuiet(fromS: number, toS: number, happens: readonly number[]): Piece[] {
  const points = [fromS, ...happens.filter((t) => t > fromS && t < toS), toS];
  const pieces: Piece[] = [];
  let at = fromS;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    if (b - a < QUIET_S) continue;
    pieces.push({ fromS: at, toS: a + LEAD_S, squeezed: false }, { fromS: a + LEAD_S, toS: b - LEAD_S, squeezed: true });
    at = b - LEAD_S;
  }
  return [...pieces, { fromS: at, toS, squeezed: false }];
}

function laidOut(pieces: readonly Piece[], from: number, to: number): Stretch[] {
  const quiet = pieces.filter((p) => p.squeezed).length;
  const squeezedW = Math.min(SQUEEZED_W, (to - from) / (2 * pieces.length));
  const lengths = pieces.map((p) => (p.squeezed ? 0 : (p.toS - p.fromS) ** POWER));
  const least = LEAST_SHARE * lengths.reduce((sum, w) => sum + w, 0);
  const weights = lengths.map((w) => (w === 0 ? 0 : Math.max(w, least)));
  const perWeight = (to - from - quiet * squeezedW) / weights.reduce((sum, w) => sum + w, 0);
  let x = from;
  return pieces.map((p, i) => {
    const x0 = x;
    x += p.squeezed ? squeezedW : weights[i]! * perWeight;
    return { ...p, x0, x1: x };
  });
}

/** Share of the way from a to b, 0..1. */
const share = (at: number, a: number, b: number): number => Math.min(1, Math.max(0, (at - a) / (b - a)));

function ticksOf(stretches: readonly Stretch[], untilS: number): Tick[] {
  const ticks: Tick[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (const s of stretches.filter((p) => !p.squeezed)) {
    const perS = (s.x1 - s.x0) / (s.toS - s.fromS);
    const step = STEPS_S.find((t) => t * perS >= LABEL_W) ?? STEPS_S.at(-1)!;
    for (let n = Math.ceil(s.fromS / step - 1e-9); n * step <= s.toS + 1e-9; n++) {
      const tS = n * step;
      const x = s.x0 + (tS - s.fromS) * perS;
      if (x - last < LABEL_W - 1e-9) continue;
      last = x;
      ticks.push({ tS, x, label: tickLabel(tS, untilS) });
    }
  }
  return ticks;
}

function tickLabel(tS: number, untilS: number): string {
  const plain = (v: number): string => String(Number(v.toFixed(1)));
  if (untilS <= SECONDS_ONLY_S || tS < 120) return `${plain(tS)} s`;
  if (tS % 60 === 0) return `${tS / 60} min`;
  return `${Math.floor(tS / 60)}:${String(Math.round(tS % 60)).padStart(2, '0')} min`;
}
