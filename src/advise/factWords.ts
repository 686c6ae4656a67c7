import type { FieldDiff } from '../plan/diff.ts';
import { RANGES } from '../plan/limits.ts';
import type { Band, Vehicle, VehicleState } from '../plan/types.ts';
import { STATE_WORDS } from '../rules/defineRule.ts';
import { limits } from '../rules/limits.ts';
import { formatAmount } from '../trade/units.ts';

/** A fact of the vehicle or a limit of the plan that is another than before, in words. */
export interface FactWords {
  /** `Battery capacity`; `Limit: fuse from the tap` */
  readonly name: string;
  readonly before: string;
  readonly after: string;
}

interface Fact {
  readonly name: string;
  readonly text: (value: unknown) => string;
}

const BANDS: readonly Band[] = ['low', 'typical', 'high'];
const YES_NO = (value: unknown): string => (value === true ? 'yes' : 'no');
/** Yes, no, not known; absent = nobody has said. */
const KNOWN = (value: unknown): string => (value === 'yes' || value === 'no' ? value : 'not known');
const POLES: Readonly<Record<string, string>> = { 'negative-ground': 'negative', 'positive-ground': 'positive', unknown: 'not known' };
const amount =
  (unit: string, absent = 'not said') =>
  (value: unknown): string =>
    typeof value === 'number' ? formatAmount(value, unit) : absent;

const FACTS: Readonly<Record<Exclude<keyof Vehicle, 'supplyV'>, Fact>> = {
  name: { name: 'Name of the vehicle', text: (v) => (v === '' ? 'none' : `“${String(v)}”`) },
  systemV: { name: 'System voltage', text: amount('V') },
  polarity: { name: 'Battery pole on the body', text: (v) => POLES[String(v)] ?? String(v) },
  batteryAh: { name: RANGES.vehicle.batteryAh.label, text: amount('Ah') },
  centralClamping: { name: 'Alternator clamps a load dump', text: KNOWN },
  dipLevel: { name: 'Cranking dip, level', text: String },
  parkedA: { name: 'Parked draw of the vehicle itself', text: amount('A') },
  standingDays: { name: RANGES.vehicle.standingDays.label, text: amount('days') },
  stopStart: { name: 'Engine stops and restarts by itself', text: YES_NO },
  remoteStart: { name: 'Can be started from a distance', text: YES_NO },
  electrified: { name: 'Driven electrically, wholly or in part', text: YES_NO },
  isolator: { name: 'Battery isolator switch', text: YES_NO },
  engineOffH: { name: RANGES.vehicle.engineOffH.label, text: amount('h') },
  batterySensor: { name: 'Sensor at the battery’s negative post', text: KNOWN },
  parkedC: { name: RANGES.vehicle.parkedC.label, text: (v) => (typeof v === 'number' ? `${v} °C` : 'as usual') },
};

/** What a field of the head says in words; null for one that is no fact of the vehicle and no limit. */
export function factWords({ field, before, after }: FieldDiff): FactWords | null {
  const [where, ...rest] = field.split('.');
  if (where === 'vehicle') return vehicleWords(rest, before, after);
  if (where !== 'thresholds' || rest.length === 0) return null;
  const key = rest.join('.');
  const limit = limits.find((l) => l.key === key);
  const text = (value: unknown): string => {
    const own = typeof value === 'number';
    const figure = own ? value : limit?.value;
    if (figure === undefined) return 'default';
    // A share reads in per cent.
    return `${formatAmount(figure, limit?.unit === 'share' ? '%' : (limit?.unit ?? ''))}${own ? '' : ' (default)'}`;
  };
  return { name: `Limit: ${limit?.title ?? key}`, before: text(before), after: text(after) };
}

function vehicleWords([key, state, band]: readonly string[], before: unknown, after: unknown): FactWords | null {
  if (key !== undefined && Object.hasOwn(FACTS, key)) {
    const fact = FACTS[key as keyof typeof FACTS];
    return { name: fact.name, before: fact.text(before), after: fact.text(after) };
  }
  if (key !== 'supplyV') return null;
  const of = [state === undefined ? '' : STATE_WORDS[state as VehicleState], band ?? ''].filter((t) => t !== '').join(', ');
  return { name: of === '' ? 'Supply voltages measured' : `Supply voltage, ${of}`, before: voltsText(before), after: voltsText(after) };
}

/** One voltage, those of the three bands, or those of every state that was measured. */
function voltsText(value: unknown): string {
  if (value === undefined) return 'as in the table';
  if (typeof value === 'number') return formatAmount(value, 'V');
  const rows = value as Readonly<Record<string, unknown>>;
  if (BANDS.every((band) => typeof rows[band] === 'number')) return BANDS.map((band) => formatAmount(rows[band] as number, 'V')).join(' / ');
  return Object.entries(rows)
    .map(([state, volts]) => `${STATE_WORDS[state as VehicleState]} ${voltsText(volts)}`)
    .join(', ');
}
