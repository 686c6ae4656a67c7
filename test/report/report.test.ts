import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../src/plan/types.ts';
import { report, schema } from '../../src/report.ts';
import { exitCode } from '../../src/sheet/report/counts.ts';
import { reportJson } from '../../src/sheet/report/json.ts';
import { reportText } from '../../src/sheet/report/text.ts';
import { finding, plan, results } from '../sheet/fixture.ts';

const folder = mkdtempSync(join(tmpdir(), 'plan-report-'));
afterAll(() => rmSync(folder, { recursive: true }));
function fileOf(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}
const planFile = (name: string, p: Plan): string => fileOf(name, JSON.stringify(p));

interface Json {
  readonly summary: Record<string, number>;
  readonly readings: readonly { state: string; band: string; terminalV: Record<string, number | null>; wireA: Record<string, number | null> }[];
  readonly wires: readonly { id: string; name: string | null; protection: { from: { maxA: number | null; unlimited: boolean; byPart: string | null } } }[];
  readonly arrivals: readonly { part: string; typical: readonly (number | null)[] }[];
}

describe('how it ends', () => {
  const counts = { hazards: 0, faults: 3, advice: 1, looked: 10, cannotTell: 2, hazardsUntold: 1 };
  it('with 1 for a hazard, or strictly where a hazard could not be told', () => {
    expect(exitCode(counts, false)).toBe(0);
    expect(exitCode(counts, true)).toBe(1);
    expect(exitCode({ ...counts, hazardsUntold: 0 }, true)).toBe(0);
    expect(exitCode({ ...counts, hazards: 1 }, false)).toBe(1);
  });

  it('with 1 when a plan joins a converter to a permanent feed without a fuse', () => {
    const { w21, w22, ...wires } = plan.wires;
    if (!w21 || !w22) throw new Error('fixture has W1 and W2');
    const bare = { ...plan, wires: { ...wires, w22: { ...w22, from: w21.from } } };
    const answer = report([planFile('bare.json', bare)]);
    expect(answer.out).toContain('HAZARD');
    expect(answer.code).toBe(1);
  });

  it('with 0 when nothing is drawn', () => {
    const answer = report([planFile('empty.json', { ...plan, parts: {}, wires: {} })]);
    expect(answer).toMatchObject({ code: 0, err: '' });
    expect(answer.out).toContain('No hazard, no fault found');
  });

  it.each([
    ['no file named', [], /usage/],
    ['two files', ['a', 'b'], /usage/],
    ['an unknown option', ['--colour', 'a'], /unknown option --colour/],
    ['a file that is not there', [join(folder, 'nothing.json')], /cannot be read/],
    ['a folder', [folder], /cannot be read/],
    ['no JSON', [fileOf('no.json', '{')], /not JSON/],
    ['JSON that is no plan', [fileOf('other.json', '{"format":"other"}')], /not a plan that can be read/],
    ['a plan with a wire to nowhere', [planFile('torn.json', { ...plan, parts: {} })], /not a plan that can be read/],
  ])('with 2 and a message for %s', (_, args, message) => {
    const answer = report(args);
    expect(answer.code).toBe(2);
    expect(answer.out).toBe('');
    expect(answer.err).toMatch(message);
  });

  it('with its usage when asked for help', () => {
    expect(report(['--help'])).toMatchObject({ code: 0, out: expect.stringContaining('--strict') });
  });
});

describe('as JSON', () => {
  const answer = report([planFile('plan.json', plan), '--json']);
  const json = JSON.parse(answer.out) as Json;

  it('has every terminal and wire in every state and band', () => {
    // Nine base states of the key walk in three bands; the fixture's vehicle has none of the extra states.
    expect(new Set(json.readings.map((r) => `${r.state} ${r.band}`)).size).toBe(27);
    for (const r of json.readings) {
      expect(Object.keys(r.wireA).sort()).toEqual(Object.keys(plan.wires).sort());
      expect(Object.keys(r.terminalV)).toEqual(expect.arrayContaining(['p3.1', 'p4.out', 'p5.29']));
    }
  });

  it('carries solved figures: the converter’s output and the same current before and behind the fuse', () => {
    const running = json.readings.find((r) => r.state === 'RUN_CHARGING' && r.band === 'typical');
    // 5.12 V +-2 %: the part's own setting.
    expect(Math.abs((running?.terminalV['p4.out'] ?? 0) - 5.12)).toBeLessThan(0.11);
    expect(running?.wireA.w21).toBeGreaterThan(0.1);
    expect(running?.wireA.w22).toBeCloseTo(running?.wireA.w21 ?? 0, 9);
  });

  it('holds no figure that JSON cannot carry', () => {
    expect(answer.out).not.toMatch(/NaN|Infinity/);
    const open = JSON.parse(JSON.stringify(reportJson(results))) as Json;
    expect(open.wires.find((w) => w.id === 'w21')?.protection.from).toEqual({ maxA: null, unlimited: true, byPart: null, byName: '' });
    expect(open.wires.find((w) => w.id === 'w20')?.name).toBeNull();
  });

  it('counts findings by level, those set aside too', () => {
    const two = { ...results, report: { ...results.report, findings: [finding, { ...finding, level: 'hazard' as const }] } };
    const { summary } = JSON.parse(JSON.stringify(reportJson(two))) as Json;
    expect(summary).toMatchObject({ hazards: 1, faults: 0, advice: 1, looked: 61, cannotTell: 1, hazardsUntold: 1 });
  });
});

describe('as text', () => {
  it('gives the title, findings with figures, what arrives, wires and the parked draw', async () => {
    await expect(reportText(results)).toMatchFileSnapshot('saved/fixture.txt');
  });
});

describe('as wiring sheet', () => {
  it('prints on A4, or on Letter when asked', () => {
    const file = planFile('sheet.json', plan);
    expect(report([file, '--sheet']).out).toMatch(/^<!DOCTYPE html>[\s\S]*size: A4 portrait/);
    expect(report([file, '--sheet', '--letter']).out).toContain('size: Letter portrait');
  });
});

describe('the commands', () => {
  it('print the JSON Schema of a plan', () => {
    const printed = JSON.parse(schema().out) as { properties: Record<string, unknown> };
    expect(Object.keys(printed.properties)).toEqual(expect.arrayContaining(['format', 'version', 'vehicle', 'zones', 'parts', 'wires']));
  });

  it('start from the command line', () => {
    const launch = (...args: string[]) => spawnSync(process.execPath, ['src/report/launch.mjs', ...args], { encoding: 'utf8' });
    expect(JSON.parse(launch('schema').stdout)).toHaveProperty('properties');
    expect(launch('report', join(folder, 'nothing.json')).status).toBe(2);
    const ok = launch('report', planFile('again.json', { ...plan, parts: {}, wires: {} }));
    expect(ok.status).toBe(0);
    expect(ok.stdout).toContain('No hazard, no fault found');
  }, 60_000);
});
