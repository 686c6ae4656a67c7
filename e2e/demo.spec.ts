import { expect } from '@playwright/test';
import { App, KEYS } from './app.ts';
import { expectShown, readFigure, readingIn, reportOf } from './figures.ts';
import { test } from './standing.ts';

const DEMO = 'public/plans/mobile-library-van.plan.json';
/** From the fuse to the hold relay: all of the build's supply flows there. */
const FEED = ['Supply fuse.2', 'Hold relay.30'] as const;

test('the demo opens with no hazard and no fault, and a wire shows at each key position and supply what the engine computes without a browser', async ({
  page,
}) => {
  const computed = reportOf(DEMO);
  expect(computed.summary).toMatchObject({ hazards: 0, faults: 0 });
  const app = new App(page);
  await app.openDemo();
  await expect(app.headline.getByRole('heading')).toHaveText('No hazard, no fault found');
  await expect(app.findings('Hazard')).toHaveCount(0);
  await expect(app.findings('Fault')).toHaveCount(0);

  await app.selectWire(...FEED);
  const { id } = await app.wireBetween(...FEED);
  const [fuse, relay] = [await partId(app, 'Supply fuse'), await partId(app, 'Hold relay')];

  // The worst load and drop over all key positions and supplies.
  const worst = Math.max(...computed.readings.map((r) => Math.abs(r.wireA[id] ?? 0)));
  const text = (await app.card.textContent()) ?? '';
  const most = /For a moment it may be ([^(]*)\((\w+), (low|typical|high)\)/.exec(text.replace(/\s+/g, ' '));
  expect(most, text).not.toBeNull();
  expect(KEYS as readonly string[]).toContain(most?.[2]);
  // Never less than in any reading of the walk; part tolerances may make it more.
  expect(readFigure(most?.[1] ?? '').value).toBeGreaterThan(worst * 0.97);
  await expect(app.card).toContainText(/Greatest drop\s*[\d.]+\s*m?V \([\d.]+\s*%\)/);
  await expect(app.card).toContainText(/(F1|Supply fuse), at most 3(\.00)?\s*A/);

  const shown: string[] = [];
  for (const key of KEYS) {
    await app.turnKey(key);
    await expect(app.card.locator('.figures')).toContainText(`${key}, typical`);
    const reading = readingIn(computed, key, 'typical');
    const card = await app.readWireCard();
    const amps = reading.wireA[id] ?? Number.NaN;
    const drop = (reading.terminalV[`${fuse}.2`] ?? Number.NaN) - (reading.terminalV[`${relay}.30`] ?? Number.NaN);
    expectShown(card.load, amps, `load, ${key}`);
    expectShown(card.drop, drop, `drop, ${key}`);
    for (const each of KEYS) expectShown(card.six[each], readingIn(computed, each, 'typical').wireA[id] ?? Number.NaN, `${each} among the six`);
    shown.push(card.load);
  }
  // Parked it sleeps, from Ignition on it works: the figures must tell these apart.
  const [parked, , ignition, , running] = shown.map((t) => readFigure(t).value);
  expect(parked).toBeLessThan(0.001);
  expect(ignition).toBeGreaterThan(0.5);
  expect(running).toBeGreaterThan(0.5);

  await app.turnKey('Running');
  for (const band of ['low', 'high'] as const) {
    await app.click(page.getByRole('group', { name: 'Supply' }).getByText(band));
    await expect(app.card.locator('.figures')).toContainText(`Running, ${band}`);
    expectShown((await app.readWireCard()).load, readingIn(computed, 'Running', band).wireA[id] ?? Number.NaN, band);
  }
});

test('the computer’s pins say in words and volts what they read', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  await app.openTab('Pins');
  const sense = app.answers.getByRole('row').filter({ hasText: 'Key sensor C' });
  await expect(sense).toContainText('low');
  await app.turnKey('Held');
  await expect(sense).toContainText('high');
});

async function partId(app: App, ref: string): Promise<string> {
  return (await app.part(ref)).id;
}
