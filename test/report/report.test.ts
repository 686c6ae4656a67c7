import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { EventReport } from '../../src/analysis/time/types.ts';
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
  readonly events: readonly {
    profile: string;
    outcome: string;
    leastV: number | null;
    mostV: number | null;
    stress: readonly { part: string; kind: string; unit: string; peak: number | null; limit: number | null; share: number | null; atS: number | null }[];
  }[];
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
    ['a file that is not there', [join(folder, 'nothing.json')], /cannot be read: there is no such file/],
    ['a folder', [folder], /cannot be read: it is a folder/],
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
    const open = JSON.parse(JSON.stringify(reportJson(results, []))) as Json;
    expect(open.wires.find((w) => w.id === 'w21')?.protection.from).toEqual({ maxA: null, unlimited: true, byPart: null, byName: '' });
    expect(open.wires.find((w) => w.id === 'w20')?.name).toBeNull();
  });

  describe('tells what the events of the supply do to each part', () => {
    const demo = JSON.parse(report(['public/plans/mobile-library-van.plan.json', '--json']).out) as Json;
    const event = (id: string) => demo.events.find((e) => e.profile === id)!;
    const stress = (id: string, part: string, kind: string) => event(id).stress.find((s) => s.part === part && s.kind === kind)!;

    it('each event of a 12 V vehicle that clamps, played to its end, the worst part first', () => {
      expect(demo.events.map((e) => e.profile)).toEqual([
        'starting',
        'load-dump-b',
        'jump-start',
        'long-over-voltage',
        'reversed-battery',
        'pulse-1',
        'pulse-2a',
        'pulse-2b',
      ]);
      for (const e of demo.events) {
        expect(e.outcome).toBe('done');
        expect(e.stress.length).toBeGreaterThan(0);
        const shares = e.stress.map((s) => s.share ?? Number.POSITIVE_INFINITY);
        expect(shares).toEqual([...shares].sort((a, b) => b - a));
      }
    });

    it('the supply as the standard has it: 35 V clamped (ISO 16750-2, read), 26 V jump start, 8.0 V in the dip of level I', () => {
      expect(event('load-dump-b').mostV).toBeCloseTo(35, 0);
      expect(event('jump-start').mostV).toBeCloseTo(26, 0);
      expect(event('starting').leastV).toBeCloseTo(8, 0);
    });

    it('peak, limit and share: the bulk capacitor’s 50 V meet nearly all of 35 V, the sense resistor takes (26 V − 1.1 V)² / 2.2 kΩ', () => {
      const bulk = stress('load-dump-b', 'p21', 'capacitor');
      expect(bulk).toMatchObject({ unit: 'V', limit: 50 });
      expect(bulk.peak! / 35).toBeGreaterThan(0.97);
      expect(bulk.peak! / 35).toBeLessThan(1);
      expect(bulk.share).toBeCloseTo(bulk.peak! / 50, 9);
      const sense = stress('jump-start', 'p14', 'resistor');
      expect(sense.unit).toBe('W');
      expect(Math.abs(sense.peak! - (26 - 1.1) ** 2 / 2200)).toBeLessThan(0.02 * 0.28);
      expect(sense.share).toBeCloseTo(sense.peak! / sense.limit!, 9);
    });

    it('a share without end is none: 5 V that fall to nothing', () => {
      const [one] = demo.events;
      const dead = {
        ...one,
        supply: { tS: new Float64Array([0, 1]), volts: new Float64Array([12, 0]) },
        stress: [{ part: 'p27', kind: 'five low', unit: 'V', peak: 0, limit: 4.6, share: Number.POSITIVE_INFINITY, atS: 1 }],
      } as unknown as EventReport;
      const { events } = JSON.parse(JSON.stringify(reportJson(results, [dead]))) as Json;
      expect(events[0]).toMatchObject({ leastV: 0, mostV: 12, stress: [{ peak: 0, share: null }] });
    });
  });

  it('counts findings by level, those set aside too', () => {
    const two = { ...results, report: { ...results.report, findings: [finding, { ...finding, level: 'hazard' as const }] } };
    const { summary } = JSON.parse(JSON.stringify(reportJson(two, []))) as Json;
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
