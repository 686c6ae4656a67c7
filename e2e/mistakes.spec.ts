import { readdirSync, readFileSync } from 'node:fs';
import { expect } from '@playwright/test';
import { MISTAKE_WORDS } from '../src/advise/mistakeWords.ts';
import type { Plan } from '../src/plan/types.ts';
import { App } from './app.ts';
import { test } from './standing.ts';

const CATALOGUE = 'src/rules/catalogue/';

/** Title of the rule with a catalogue code: its cards carry it. */
function titleOf(code: string): string {
  for (const name of readdirSync(CATALOGUE)) {
    const text = readFileSync(CATALOGUE + name, 'utf8');
    const title = new RegExp(`code: '${code}'[\\s\\S]*?title: (['"\`])(.+?)\\1,`).exec(text)?.[2];
    if (title !== undefined) return title;
  }
  throw new Error(`no rule has the code ${code}`);
}

for (const mistake of MISTAKE_WORDS) {
  test(`${mistake.title}: told with its figures, mended from its card, brought back by undo`, async ({ page }) => {
    const app = new App(page);
    await app.openDemo();
    const card = app.findings().filter({ hasText: titleOf(mistake.answers) });
    await expect(card).toHaveCount(0);

    await app.click(app.answers.getByRole('button', { name: mistake.title, exact: true }));
    await expect(card).toBeVisible();
    // A card rests on figures with their units, not on a word alone.
    await expect(card.locator('p:not(.row)').first()).toContainText(/\d\s*(m|mm²|A|mA|V|mV|W|mW|s|Ω|kΩ)\b|GPIO ?\d+/);
    await expect(app.answers.getByRole('status')).toHaveText(mistake.look);
    await app.settled();

    // A card that speaks of several parts is mended part by part.
    let mended = 0;
    do {
      await app.mend(card);
      await app.settled();
      mended++;
    } while (mended < 3 && (await card.isVisible()));
    await expect(card).toHaveCount(0);

    await app.undo();
    await expect(card).toBeVisible();
    for (; mended > 0; mended--) await app.undo();
    await expect(card).toHaveCount(0);
    await expect(app.headline.getByRole('heading')).toHaveText('No hazard, no fault found');
  });
}

test('a card of two is mended with one click and brought back by one undo', async ({ page }) => {
  const demo = JSON.parse(readFileSync('public/plans/mobile-library-van.plan.json', 'utf8')) as Plan;
  const parts = Object.fromEntries(
    Object.entries(demo.parts).map(([id, p]) => [id, p.kind === 'computer' ? { ...p, settings: { ...p.settings, gpio5Mode: 'in', gpio6Mode: 'in' } } : p]),
  );
  const app = new App(page);
  await app.openPlan({ ...demo, id: 'e2e-mend-all', parts });
  const card = app.findings().filter({ hasText: titleOf('E6') });
  await expect(card).toContainText('×2');
  await app.click(card.getByRole('button', { name: 'Mend all 2' }));
  await expect(card).toHaveCount(0);
  await app.undo();
  await expect(card).toContainText('×2');
  await expect(app.undoButton).toBeDisabled();
});
