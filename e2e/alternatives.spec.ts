import { expect, type Page } from '@playwright/test';
import { App } from './app.ts';
import { barriers } from './axe.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

const switchOf = (page: Page) => page.getByRole('button', { name: /^Wiring [A-Z]: other wirings/ });
const compared = (page: Page) => page.getByRole('main', { name: 'Two wirings compared' });

/** A small plan with a second wiring in which the lonely resistor is gone. */
async function withSecond(app: App): Promise<void> {
  const { page } = app;
  await app.openPlan(smallPlan('Two wirings'));
  await app.click(page.getByRole('button', { name: 'Plans and files' }));
  await app.click(page.getByRole('button', { name: 'Try another wiring' }));
  await expect(switchOf(page)).toHaveText('Wiring B');
  await app.closeToast();
  await app.settled();
  await app.selectPart('Resistor');
  await page.keyboard.press('Delete');
  await expect.poll(async () => Object.values((await app.plan()).parts).length).toBe(6);
  await app.saved();
}

test('another wiring is tried, compared, on a phone too, and the first is as it was', async ({ page }) => {
  // Two wirings, each worked out anew several times.
  test.slow();
  const app = new App(page);
  await withSecond(app);

  // By keys alone: the switch, its list, the comparison and back.
  await switchOf(page).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Compare A with B …' }).focus();
  await page.keyboard.press('Enter');
  const view = compared(page);
  const figures = view.getByRole('table', { name: 'Figures of both' });
  await expect(figures.getByRole('row', { name: /Parts of the build/ }).getByRole('cell')).toHaveText(['4', '3'], { timeout: 20_000 });
  await expect(figures.getByRole('row', { name: /Parked battery lasts/ }).getByRole('cell')).toHaveText([/day/, /day/]);
  await expect(view.getByRole('heading', { name: 'Only in A' }).first()).toBeVisible();
  await expect(view.getByText(/^R\d+ Resistor$/)).toBeVisible();
  await expect(view.getByRole('heading', { name: 'In both, not alike' })).toHaveCount(0);
  await expect(view.getByRole('img', { name: 'Wiring A: 1 only here, 0 in both' })).toBeVisible();
  await expect(view.getByRole('img', { name: 'Wiring B: 0 only here, 0 in both' })).toBeVisible();
  expect(await barriers(page, 'alternatives')).toEqual([]);
  await page.keyboard.press('Escape');
  await expect(view).toHaveCount(0);
  await expect(switchOf(page)).toHaveText('Wiring B');

  // The other one opens from the comparison too, with all that was in it; both outlive the page.
  await app.click(switchOf(page));
  await app.click(page.getByRole('button', { name: 'Compare A with B …' }));
  await app.click(view.getByRole('button', { name: 'Open wiring A' }));
  await expect(switchOf(page)).toHaveText('Wiring A');
  expect(Object.values((await app.plan()).parts)).toHaveLength(7);
  await app.saved();
  await page.reload();
  await expect(switchOf(page)).toHaveText('Wiring A');
  await app.click(switchOf(page));
  await app.click(page.getByRole('button', { name: /^Open B/ }));
  await expect(switchOf(page)).toHaveText('Wiring B');
  expect(Object.values((await app.plan()).parts)).toHaveLength(6);

  // On a phone both stand side by side without scrolling sideways.
  await page.setViewportSize({ width: 360, height: 740 });
  await expect(switchOf(page)).toBeInViewport();
  expect((await switchOf(page).boundingBox())?.height).toBeGreaterThanOrEqual(44);
  await app.click(switchOf(page));
  await app.click(page.getByRole('button', { name: 'Compare A with B …' }));
  await expect(compared(page).getByRole('img', { name: /^Wiring B/ })).toBeVisible({ timeout: 20_000 });
  const beyond = await compared(page).evaluate((main) => {
    const body = main.querySelector('.compare-body') as HTMLElement;
    return [body.scrollWidth - body.clientWidth, document.documentElement.scrollWidth - innerWidth];
  });
  expect(beyond).toEqual([0, 0]);
  await page.keyboard.press('Escape');
  await expect(compared(page)).toHaveCount(0);
});
