import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import type { Plan } from '../../src/plan/types.ts';

// Scenarios of our own: what a rule must say of them follows from the figures that its own test takes from outside.
const FOLDER = 'public/plans';
const SPOILED = ['school-minibus', 'beet-harvester'];
const files = readdirSync(FOLDER).filter((f) => f.endsWith('.plan.json'));

function open(name: string): Plan {
  const read = readPlan(readFileSync(`${FOLDER}/${name}.plan.json`, 'utf8'));
  if (!read.ok) throw new Error(`${name}: ${read.problems.map((p) => `${p.where}: ${p.what}`).join('; ')}`);
  return read.plan;
}

/** Everything that is wrong, also what waits for a later stage of the job. */
function cards(name: string): string[] {
  const { report } = computeResults(open(name));
  return [...report.cards, ...report.waiting].filter((c) => c.level !== 'advice').map((c) => c.code);
}

describe('example plans', () => {
  it.each(files)('%s reads back the same', (file) => {
    const name = file.replace('.plan.json', '');
    const again = readPlan(writePlan(open(name)));
    expect(again.ok && again.plan).toEqual(open(name));
  });

  it.each(files.map((f) => f.replace('.plan.json', '')).filter((n) => !SPOILED.includes(n)))('%s has no hazard and no fault', (name) => {
    expect(cards(name)).toEqual([]);
  });

  it('the school minibus is told of tap, fuse, converter, sensor, pins and sound', () => {
    expect(cards('school-minibus')).toEqual(expect.arrayContaining(['A2', 'A3', 'A12', 'B5', 'B6', 'C2', 'C7', 'D1', 'D4', 'E1', 'F2', 'H1']));
  });

  it('the beet harvester is told what only its corners show', () => {
    expect(cards('beet-harvester')).toEqual(expect.arrayContaining(['A3', 'A16', 'B11', 'C2', 'C7', 'D1', 'D4', 'J2']));
  });
});
