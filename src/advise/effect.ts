import { viewsOf } from '../analysis/views.ts';
import { amps, volts } from '../rules/defineRule.ts';
import type { Results } from './types.ts';

/** What a change of the plan does, in words ready to be shown. */
export interface Effect {
  /** Figures that move: "5 V at the computer, least", "4.38 V", "4.91 V". */
  readonly figures: readonly { readonly label: string; readonly before: string; readonly after: string }[];
  /** What is to be bought more, as on the parts list: "1 × Blade fuse, 3 A". */
  readonly buys: readonly string[];
  /** What is no longer needed. */
  readonly spares: readonly string[];
}

/** A figure that moves by less than this share is not worth a line. */
const WORTH = 0.005;
/** A parked draw that moves by less is noise, A. */
const LEAST_A = 10e-6;

/** Compares everything computed before and after. Pure. */
export function effectOf(before: Results, after: Results): Effect {
  const more = difference(shopping(before), shopping(after));
  return {
    figures: figures(before, after),
    buys: more.filter(([, n]) => n > 0).map(([what, n]) => `${n} ${what}`),
    spares: more.filter(([, n]) => n < 0).map(([what, n]) => `${-n} ${what}`),
  };
}

function figures(before: Results, after: Results): Effect['figures'] {
  const list: { label: string; before: string; after: string }[] = [];
  const add = (label: string, a: number | undefined, b: number | undefined, text: (x: number) => string, least = 0): void => {
    if (a === undefined || b === undefined || Math.abs(b - a) <= Math.max(least, WORTH * Math.max(Math.abs(a), Math.abs(b)))) return;
    if (text(a) !== text(b)) list.push({ label, before: text(a), after: text(b) });
  };
  add('Hazards in all', count(before, 'hazard'), count(after, 'hazard'), String);
  add('Faults in all', count(before, 'fault'), count(after, 'fault'), String);
  const least = (r: Results): number | undefined => r.analysis.arrivals.find((a) => r.filled.parts[a.part]?.kind === 'computer')?.worstLow?.v;
  add('5 V at the computer, least', least(before), least(after), volts);
  add('Parked draw of this build', before.analysis.parked.buildA, after.analysis.parked.buildA, amps, LEAST_A);
  return list;
}

/** Each for itself: what was folded under a mended cause and stands alone now is no new one. */
function count({ report }: Results, level: 'hazard' | 'fault'): number {
  return report.findings.filter((f) => f.level === level).length;
}

/** How much of each thing is bought: pieces ("× Blade fuse ...") or metres ("m wire 0.5 mm²"). */
type Shopping = ReadonlyMap<string, number>;

/** Parts of the build by kind and rating, wire by size in tenths of a metre. */
function shopping({ filled }: Results): Shopping {
  const list = new Map<string, number>();
  const add = (what: string, n: number): void => void list.set(what, (list.get(what) ?? 0) + n);
  for (const view of viewsOf(filled).values()) {
    if (view.part.owner !== 'build' || view.kind.owner === 'vehicle') continue;
    const spec = view.kind.spec(view.s);
    const { title } = view.kind;
    const named = spec.toLowerCase().startsWith(title.toLowerCase()) ? spec : [title, spec].filter(Boolean).join(', ');
    add(`× ${named}`, 1);
  }
  for (const wire of Object.values(filled.wires)) {
    if (wire.owner === 'build' && wire.areaMm2 !== undefined && wire.lengthM !== undefined)
      add(`m wire ${wire.areaMm2} mm²`, Math.round(wire.lengthM * 10) / 10);
  }
  return list;
}

function difference(before: Shopping, after: Shopping): [string, number][] {
  return [...new Set([...before.keys(), ...after.keys()])]
    .map((what): [string, number] => [what, Math.round(10 * ((after.get(what) ?? 0) - (before.get(what) ?? 0))) / 10])
    .filter(([, n]) => n !== 0);
}
