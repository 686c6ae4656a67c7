import type { EventReport, Stress, StressKind } from '../../analysis/time/types.ts';
import type { Finding } from '../../rules/types.ts';
import type { ProfileId } from '../../trade/profiles.ts';
import { formatAmount } from '../../trade/units.ts';

/** What is stressed, as it stands behind the part's name. */
export const STRESS_WORDS: Readonly<Record<StressKind, string>> = {
  input: 'volts at its supply',
  five: '5 V, at the most',
  'five low': '5 V, at the least',
  reversed: 'volts the wrong way round',
  blocked: 'volts it holds back',
  capacitor: 'volts across it',
  'clamp power': 'power for a moment',
  'clamp energy': 'energy it swallows',
  led: 'current in its LED',
  fuse: 'way to melting',
  resistor: 'heat',
};

/** Short names for a row of choices. */
export const EVENT_WORDS: Readonly<Record<ProfileId, string>> = {
  starting: 'Starting',
  'load-dump-a': 'Load dump',
  'load-dump-b': 'Load dump, clamped',
  'jump-start': 'Jump start',
  'long-over-voltage': 'Regulator failed',
  'reversed-battery': 'Battery reversed',
  'pulse-1': 'Coil cut off beside it',
  'pulse-2a': 'Current cut off',
  'pulse-2b': 'Motor coasting',
};

/** Rules that speak of a figure, the nearest first. */
const SPOKEN_OF: Readonly<Record<StressKind, readonly string[]>> = {
  input: ['converter-not-rugged', 'surge-not-stopped'],
  five: ['five-volt-window'],
  'five low': ['dip-not-bridged', 'starting-reboots-computer', 'converter-starves'],
  reversed: ['sense-led-unguarded', 'reversed-supply', 'part-backwards'],
  blocked: ['reversed-supply'],
  capacitor: ['capacitor-volts'],
  'clamp power': ['surge-not-stopped'],
  'clamp energy': ['surge-not-stopped'],
  led: ['sense-led-overdriven', 'led-resistor-wrong'],
  fuse: ['fuse-eaten-by-surge', 'reversed-supply', 'fuse-too-small'],
  resistor: ['sense-resistor-too-hot'],
};

/** One row of a table of events: the worst that happens to one figure of one part, and in which event. */
export interface StressRow {
  readonly stress: Stress;
  readonly event: EventReport;
}

/** Of every figure of every part the event that is worst for it, worst first. */
export function worstStresses(reports: readonly EventReport[]): StressRow[] {
  const worst = new Map<string, StressRow>();
  for (const event of reports) {
    for (const stress of event.stress) {
      const key = `${stress.part}:${stress.kind}`;
      const before = worst.get(key);
      if (!before || stress.share > before.stress.share) worst.set(key, { stress, event });
    }
  }
  return [...worst.values()].sort((a, b) => b.stress.share - a.stress.share);
}

export function isBeyond({ share, kind }: Stress): boolean {
  return kind === 'fuse' ? share >= 1 : share > 1;
}

/** "58 %", "1.7 times what it stands", "melts". */
export function shareText(stress: Stress): string {
  const { share, kind } = stress;
  if (!isBeyond(stress)) return `${Math.max(1, Math.min(100, Math.round(100 * share)))} %`;
  if (kind === 'fuse') return 'melts';
  if (kind === 'five low') return 'below what it needs';
  if (kind === 'five') return 'above its limit';
  if (share < 1.05) return 'just beyond what it stands';
  return share > 20 ? 'far beyond what it stands' : `${Number(share.toPrecision(2))} times what it stands`;
}

/** "35.0 V of 60 V": the peak and what the part stands. */
export function peakText({ peak, limit, unit, kind }: Stress): string {
  if (kind === 'fuse') return `${Math.round(100 * Math.min(1, peak))} %`;
  return `${formatAmount(peak, unit, 3)} of ${formatAmount(limit, unit, 3)}`.replaceAll(' ', '\u00a0').replace('\u00a0of', ' of');
}

/** The finding about the same part that speaks of this figure, or null. */
export function findingOf({ part, kind }: Stress, findings: readonly Finding[]): Finding | null {
  for (const rule of SPOKEN_OF[kind]) {
    const found =
      findings.find((f) => f.rule === rule && f.subject.id === part) ?? findings.find((f) => f.rule === rule && f.related.some((r) => r.id === part));
    if (found) return found;
  }
  return null;
}

/** What all the events come to, in a sentence. */
export function eventsAnswer(reports: readonly EventReport[], nameOf: (part: string) => string): string {
  const beyond = worstStresses(reports).filter((r) => isBeyond(r.stress));
  const first = beyond[0];
  if (!first) return `In ${reports.length} events of the supply no figure goes beyond what its part is stated to stand.`;
  const parts = new Set(beyond.map((r) => r.stress.part)).size;
  const more = parts > 1 ? `, and ${parts - 1} more ${parts === 2 ? 'part' : 'parts'} beyond what they stand` : '';
  return `${nameOf(first.stress.part)}: ${STRESS_WORDS[first.stress.kind]} ${shareText(first.stress)} (${EVENT_WORDS[first.event.profile].toLowerCase()})${more}.`;
}
