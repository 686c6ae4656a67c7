import { spawnSync } from 'node:child_process';
import { expect } from '@playwright/test';
import type { Band, VehicleState } from '../src/plan/types.ts';
import type { Key } from './app.ts';

/** The six key positions as the report names them. */
export const STATE_OF: Readonly<Record<Key, VehicleState>> = {
  Parked: 'OFF_ASLEEP',
  Accessory: 'ACC',
  Ignition: 'RUN_STOPPED',
  Start: 'START',
  Running: 'RUN_CHARGING',
  Held: 'RETAIN',
};

export interface Report {
  readonly summary: { readonly hazards: number; readonly faults: number };
  readonly findings: readonly { readonly rule: string; readonly level: string }[];
  readonly parts: readonly { readonly id: string; readonly kind: string }[];
  readonly wires: readonly {
    readonly id: string;
    readonly name: string | null;
    readonly owner: string;
    readonly from: { readonly part: string; readonly terminal: string };
    readonly to: { readonly part: string; readonly terminal: string };
  }[];
  readonly readings: readonly {
    readonly state: VehicleState;
    readonly band: Band;
    readonly status: string;
    readonly terminalV: Readonly<Record<string, number | null>>;
    readonly wireA: Readonly<Record<string, number | null>>;
    readonly deviceOn: Readonly<Record<string, boolean>>;
  }[];
}

/** Runs the headless command; everything computed for a plan, without any browser. */
export function report(file: string, ...options: string[]): { readonly code: number | null; readonly out: string; readonly err: string } {
  const done = spawnSync('npm', ['run', '--silent', 'report', '--', file, ...options], {
    encoding: 'utf8',
    maxBuffer: 50_000_000,
    shell: process.platform === 'win32',
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
}

export function reportOf(file: string): Report {
  const { out, err } = report(file, '--json');
  expect(err).toBe('');
  return JSON.parse(out) as Report;
}

export function readingIn(all: Report, key: Key, band: Band): Report['readings'][number] {
  const found = all.readings.find((r) => r.state === STATE_OF[key] && r.band === band);
  if (!found) throw new Error(`no reading for ${key}, ${band}`);
  return found;
}

const SCALE: Readonly<Record<string, number>> = { µ: 1e-6, m: 1e-3, '': 1, k: 1e3 };

/** A figure on the screen, "33 mV", in SI, with half a step of its last shown digit. */
export function readFigure(text: string): { readonly value: number; readonly half: number } {
  const hit = /(\d+(?:\.(\d+))?)\s*([µmk]?)([AVW])\b/.exec(text);
  if (!hit) throw new Error(`"${text}" is no figure`);
  const scale = SCALE[hit[3] ?? ''] ?? 1;
  return { value: Number(hit[1]) * scale, half: 0.5 * 10 ** -(hit[2]?.length ?? 0) * scale };
}

/**
 * Is this what the engine computed, rounded to what is shown? Figures count by size; what is under a tenth of a
 * microamp or a microvolt may be shown as nothing.
 */
export function expectShown(text: string, computed: number, what: string): void {
  const { value, half } = readFigure(text);
  const size = Math.abs(computed);
  expect(Math.abs(value - size), `${what}: shows ${text}, computed ${computed}`).toBeLessThanOrEqual(Math.max(half * 1.001, 5e-5 * Number(value === 0)));
}
