import { expect, type Page } from '@playwright/test';
import { App } from './app.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

// No box has come yet when the page opens.
test.use({ empty: true });

/** A plan with a part chosen, on a page whose boxes are slow to come: bare keys would have much to do. */
async function slowBoxes(page: Page): Promise<App> {
  const app = new App(page);
  await page.route(/\/OverPlan-[^/]*\.js$/, async (route) => {
    await new Promise((done) => setTimeout(done, 700));
    await route.continue();
  });
  await app.openPlan(smallPlan());
  await app.selectPart('Resistor');
  return app;
}
const dialog = (page: Page) => page.getByRole('dialog');

test('J and a whole wire typed at once, before the box has come, draw that wire and do nothing else', async ({ page }) => {
  const app = await slowBoxes(page);
  const before = await app.plan();
  await page.keyboard.press('j');
  await expect(dialog(page)).toHaveCount(0);
  await page.keyboard.type('Resistor 2 > Converter out');
  await page.keyboard.press('Enter');
  await page.keyboard.type('Fuse');
  await expect(dialog(page)).toBeVisible();
  await expect(dialog(page).getByRole('searchbox')).toHaveValue('Fuse');
  await expect(dialog(page).getByRole('searchbox')).toBeFocused();
  expect(await app.findWire('Resistor.2', 'Converter.out')).not.toBeNull();
  const after = await app.plan();
  expect(after.parts).toEqual(before.parts);
  expect(Object.keys(after.wires)).toHaveLength(Object.keys(before.wires).length + 1);
  // From here on the field has the keys itself.
  await page.keyboard.type(' 2');
  await expect(dialog(page).getByRole('searchbox')).toHaveValue('Fuse 2');
});

test('the same with find and with the list of commands; Escape closes what has not come yet, and what does not come is told', async ({ page }) => {
  const app = await slowBoxes(page);
  const before = await app.plan();
  await page.keyboard.press('/');
  await page.keyboard.type('Ground');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('article', { name: 'Selected part Ground' })).toBeVisible();
  await page.reload();
  await app.settled();
  await page.keyboard.press('?');
  await page.keyboard.type('whole');
  await expect(dialog(page).getByRole('searchbox')).toHaveValue('whole');

  // No code comes any more: a page that was opened before the network went.
  await page.reload();
  await app.settled();
  // Over the slow way and not in its place: without any, the browser would take what it has kept.
  await page.route(/\/(OverPlan|SheetView)-[^/]*\.js/, async (route) => {
    await new Promise((done) => setTimeout(done, 300));
    await route.abort();
  });
  await page.keyboard.press('?');
  await page.keyboard.press('Escape');
  await page.waitForTimeout(600);
  await expect(dialog(page)).toHaveCount(0);

  await page.keyboard.press('?');
  await page.keyboard.type('whole');
  const message = page.getByRole('alertdialog', { name: 'That did not come' });
  await expect(message).toContainText('This box could not be fetched');
  await expect(message.getByRole('heading')).toBeFocused();
  // The rest of what is typed does nothing, neither to the drawing nor to the message.
  await page.keyboard.type(' r');
  await page.keyboard.press('Delete');
  await page.keyboard.press('Escape');
  await expect(message).toHaveCount(0);
  expect((await app.plan()).parts).toEqual(before.parts);

  await page.getByRole('button', { name: 'Wiring sheet' }).click();
  const alert = page.getByRole('alert');
  await expect(alert).toContainText('The wiring sheet could not be fetched');
  await expect(alert.getByRole('button', { name: 'Try again' })).toBeFocused();
  await alert.getByRole('button', { name: 'Back' }).click();
  await page.keyboard.press('?');
  await page.keyboard.type('whole');
  await expect(message).toBeVisible();
  await page.unrouteAll();
  await message.getByRole('button', { name: 'Try again' }).press('Enter');
  await expect(dialog(page).getByRole('searchbox')).toHaveValue('whole');
  await expect(dialog(page).getByRole('searchbox')).toBeFocused();
  expect((await app.plan()).parts).toEqual(before.parts);
});
