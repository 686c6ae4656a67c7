import type { Analysis } from '../analysis/types.ts';
import type { AppState, Momentary } from './types.ts';

const merged = new WeakMap<Momentary, { readonly from: Analysis; readonly analysis: Analysis }>();

/** Are the figures on screen those of the moment in which buttons are held down? */
export function isMomentary(state: Pick<AppState, 'momentary' | 'pressed' | 'resultsFor'>): boolean {
  const { momentary, pressed, resultsFor } = state;
  return momentary !== null && pressed.length > 0 && momentary.pressed === pressed && momentary.resultFor === resultsFor;
}

/**
 * The analysis as the screen shows it: with buttons held down, the readings of the six key positions and the pins are
 * those of that moment. The verdicts on wires, fuses and findings stay those of the plan with every button released.
 */
export function shownAnalysis(state: Pick<AppState, 'results' | 'momentary' | 'pressed' | 'resultsFor'>): Analysis | null {
  const analysis = state.results?.analysis ?? null;
  const { momentary } = state;
  if (!analysis || !momentary || !isMomentary(state)) return analysis;
  const known = merged.get(momentary);
  if (known?.from === analysis) return known.analysis;
  const { readings, pins } = momentary.moment;
  const others = analysis.readings.filter((r) => !readings.some((m) => m.state === r.state && m.band === r.band));
  const shown: Analysis = { ...analysis, readings: [...readings, ...others], pins };
  merged.set(momentary, { from: analysis, analysis: shown });
  return shown;
}
