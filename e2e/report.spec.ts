import { readFileSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { expect, test } from '@playwright/test';
import type { Plan } from '../src/plan/types.ts';
import { report } from './figures.ts';

const DEMO = 'public/plans/mobile-library-van.plan.json';

test('npm run report ends with 0 for the demo, 1 for a hazard, 2 for what it cannot read', async () => {
  const info = test.info();
  const good = report(DEMO);
  expect(good).toMatchObject({ code: 0, err: '' });
  expect(good.out).toContain('No hazard, no fault found');

  // The feed's fuse taken out and its wires joined: live wire from the tap to the relay with nothing to stop it.
  const plan = JSON.parse(readFileSync(DEMO, 'utf8')) as Plan;
  const fuse = Object.values(plan.parts).find((p) => p.name === 'Supply fuse');
  const near = Object.values(plan.wires).find((w) => w.to.part === fuse?.id);
  const far = Object.values(plan.wires).find((w) => w.from.part === fuse?.id);
  if (!fuse || !near || !far) throw new Error('the demo has a supply fuse between two wires');
  const { [fuse.id]: _fuse, ...parts } = plan.parts;
  const { [near.id]: _near, ...wires } = plan.wires;
  const spoiled = info.outputPath('spoiled.plan.json');
  await writeFile(spoiled, JSON.stringify({ ...plan, parts, wires: { ...wires, [far.id]: { ...far, from: near.from } } }));
  const bad = report(spoiled);
  expect(bad.code).toBe(1);
  expect(bad.out).toContain('A tap has no fuse');
  // What is counted as a hazard is also listed as one.
  expect(bad.out).toMatch(/^\d hazards?/m);
  expect(bad.out).toMatch(/^ *HAZARD /m);

  const torn = info.outputPath('torn.plan.json');
  await writeFile(torn, readFileSync(DEMO, 'utf8').slice(0, 2000));
  for (const file of [torn, 'no-such-file.json']) {
    const none = report(file);
    expect(none.code, file).toBe(2);
    expect(none.out).toBe('');
    expect(none.err).toContain(file);
  }
});
