/** A number's least and greatest value, with the unit a person reads. */
export interface Range {
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  readonly label: string;
  readonly whole?: true;
}

/** What a plan may hold, by table and field: wide enough for any vehicle, narrow enough to catch a slip of the unit. */
export const RANGES = {
  wires: {
    number: { min: 1, max: 99_999, unit: '', label: 'Wire number', whole: true },
    areaMm2: { min: 0.05, max: 120, unit: 'mm²', label: 'Conductor size' },
    lengthM: { min: 0.001, max: 100, unit: 'm', label: 'Length' },
    insulationC: { min: 60, max: 250, unit: '°C', label: 'Insulation class' },
  },
  runs: { lengthM: { min: 0.001, max: 100, unit: 'm', label: 'Length of the run' } },
  zones: {
    order: { min: 0, max: 999, unit: '', label: 'Place of the zone', whole: true },
    width: { min: 1, max: 100_000, unit: '', label: 'Width of the zone' },
    maxC: { min: -60, max: 200, unit: '°C', label: 'Largest temperature' },
    minC: { min: -60, max: 200, unit: '°C', label: 'Smallest temperature' },
  },
  parts: {
    x: { min: -100_000, max: 100_000, unit: '', label: 'Place across' },
    y: { min: -100_000, max: 100_000, unit: '', label: 'Place down' },
    item: { min: 1, max: 99_999, unit: '', label: 'Item number', whole: true },
  },
  vehicle: {
    batteryAh: { min: 1, max: 2000, unit: 'Ah', label: 'Battery capacity' },
    parkedA: { min: 0, max: 10, unit: 'A', label: 'Parked draw' },
    standingDays: { min: 0, max: 1000, unit: 'days', label: 'Standing time' },
    parkedC: { min: -40, max: 60, unit: '°C', label: 'Temperature of the parked battery' },
    engineOffH: { min: 0, max: 100, unit: 'h', label: 'Use with the engine off' },
  },
  supply: { supplyV: { min: 0, max: 100, unit: 'V', label: 'Supply voltage' } },
} as const satisfies Readonly<Record<string, Readonly<Record<string, Range>>>>;

/** What revisions may take: as many, and so many characters of a plan's file together. */
export const REVISIONS = { most: 200, letters: 2_000_000 } as const;

/**
 * Greatest serial number: far beyond any plan, and so far below the greatest whole number that is exact that counting on
 * from it never arrives there.
 */
export const MOST_SERIAL = 1e15;

/** Longest texts, characters, and lists, entries. */
export const LONGEST = {
  title: 200,
  planNote: 20_000,
  note: 5000,
  name: 80,
  vehicleName: 200,
  reason: 2000,
  bends: 200,
  tick: 200,
  revisionNote: 500,
} as const;

/** "Length: 200 m is above the largest allowed, 100 m", or null when the value is within its range. */
export function outside(range: Range, value: number): string | null {
  const unit = range.unit === '' ? '' : ` ${range.unit}`;
  if (!Number.isFinite(value)) return `${range.label} needs a number`;
  if (range.whole && !Number.isInteger(value)) return `${range.label} is a whole number`;
  if (value > range.max) return `${range.label}: ${value}${unit} is above the largest allowed, ${range.max}${unit}`;
  return value < range.min ? `${range.label}: ${value}${unit} is below the smallest allowed, ${range.min}${unit}` : null;
}
