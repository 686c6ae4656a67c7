import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { readPlan } from '../../src/codec/index.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { scenePrimitives } from '../../src/scene/picture.ts';
import { sheetHtml } from '../../src/sheet/sheetHtml.ts';

/** The drawing tells what the plan holds, and nothing of the order in which its rows came to stand. */

const DIR = 'public/plans';
const plans = readdirSync(DIR).map((file) => {
  const read = readPlan(readFileSync(`${DIR}/${file}`, 'utf8'));
  if (!read.ok) throw new Error(file);
  return [file, read.plan] as const;
});

const turned = <T>(rows: Readonly<Record<string, T>>): Readonly<Record<string, T>> => Object.fromEntries(Object.entries(rows).reverse());
const backwards = (plan: Plan): Plan => ({ ...plan, zones: turned(plan.zones), runs: turned(plan.runs), parts: turned(plan.parts), wires: turned(plan.wires) });

describe('a plan whose rows stand in another order', () => {
  it.each(plans)('has the same sheet: %s', (_, plan) => {
    const sheet = (p: Plan) => sheetHtml(computeResults(p), { paper: 'A4', date: '2025-03-04' });
    expect(sheet(backwards(plan))).toBe(sheet(plan));
  });

  it.each(plans)('has the same drawing on screen: %s', (_, plan) => {
    expect(scenePrimitives(buildScene(backwards(plan)))).toEqual(scenePrimitives(buildScene(plan)));
  });
});
