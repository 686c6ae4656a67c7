import { meterVolts } from '../analysis/meterGround.ts';
import { type Analysis, KEY_POSITIONS, type KeyPosition, type Reading } from '../analysis/types.ts';
import type { Band, Id, Plan } from '../plan/types.ts';

/** What stands along a wire: amps in it and volts at its beginning, as a meter there reads them. NaN = not known. */
export interface WireFigures {
  readonly amp: number;
  readonly volt: number;
}

/** The reading that the key position and band ask for. */
export function readingFor(analysis: Analysis, key: KeyPosition, band: Band): Reading | null {
  const state = KEY_POSITIONS.find((k) => k.key === key)?.state;
  return analysis.readings.find((r) => r.state === state && r.band === band) ?? null;
}

/** Figures for every wire of the plan that the reading knows; empty when it was not computed. `filled` is the plan the analysis belongs to. */
export function wireFigures(filled: Plan, analysis: Analysis, key: KeyPosition, band: Band): ReadonlyMap<Id, WireFigures> {
  const reading = readingFor(analysis, key, band);
  const out = new Map<Id, WireFigures>();
  if (reading?.status !== 'solved') return out;
  analysis.index.wires.forEach((id, i) => {
    const wire = filled.wires[id];
    if (!wire) return;
    const { v } = meterVolts(filled, analysis, reading, `${wire.from.part}.${wire.from.terminal}`);
    out.set(id, { amp: reading.wireA[i] ?? Number.NaN, volt: v });
  });
  return out;
}

/** Three significant figures at most, with a unit that keeps them short: "1.15 A", "12 mA", "0 A". */
export function ampText(amp: number): string {
  const a = Math.abs(amp);
  if (!Number.isFinite(a)) return '';
  if (a < 5e-7) return '0 A';
  if (a < 9.995e-4) return `${figures(a * 1e6)} µA`;
  return a < 0.9995 ? `${figures(a * 1e3)} mA` : `${figures(a)} A`;
}

export function voltText(volt: number): string {
  if (!Number.isFinite(volt)) return '';
  return Math.abs(volt) < 0.0005 ? '0 V' : Math.abs(volt) < 0.9995 ? `${figures(volt * 1e3)} mV` : `${figures(volt)} V`;
}

function figures(v: number): string {
  return String(Number(v.toPrecision(3)));
}

/** "1.15 A · 14.2 V"; an unknown half is left out. */
export function figureText(f: WireFigures): string {
  return [ampText(f.amp), voltText(f.volt)].filter((t) => t !== '').join(' · ');
}

/** Currents and volts below these say "nothing flows" and "ground": not worth a label of their own. */
const QUIET = { amp: 5e-4, volt: 1 } as const;

/** What is worth showing along an unchosen wire; '' for a dead one. */
export function briefFigureText(f: WireFigures): string {
  return figureText({ amp: Math.abs(f.amp) < QUIET.amp ? Number.NaN : f.amp, volt: Math.abs(f.volt) < QUIET.volt ? Number.NaN : f.volt });
}
