import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import type { Plan } from '../src/plan/types.ts';
import { App } from './app.ts';
import { smallPlan } from './plans.ts';

/** How often the page has asked the browser to keep its storage. */
const asked = (page: Page): Promise<number> => page.evaluate(() => Reflect.get(window, '__asked') as number);

/** A browser that counts being asked, and fails at it: the page goes on all the same. */
async function spied(page: Page): Promise<App> {
  await page.addInitScript(() => {
    Reflect.set(window, '__asked', 0);
    StorageManager.prototype.persist = async () => {
      Reflect.set(window, '__asked', Number(Reflect.get(window, '__asked')) + 1);
      throw new TypeError('not here');
    };
  });
  return new App(page);
}

test('the browser is asked to keep the plans once, with the first edit, not before; that it fails stops nothing', async ({ page }) => {
  const app = await spied(page);
  const wrong: string[] = [];
  page.on('pageerror', (error) => wrong.push(error.message));
  await app.openPlan(smallPlan());
  await app.saved();
  // A plan that was only looked at is no reason to ask.
  await app.selectPart('Converter');
  expect(await asked(page)).toBe(0);

  await app.press('ArrowDown');
  await expect.poll(() => asked(page)).toBe(1);
  await app.press('r');
  await app.undo();
  await app.saved();
  expect(await asked(page)).toBe(1);

  // Not again with another plan on the same page.
  await app.click(page.getByRole('button', { name: 'Plans and files' }));
  await app.click(page.getByRole('button', { name: 'Close this plan' }));
  await app.openFile('second.plan.json', JSON.stringify(smallPlan('Second van')));
  await app.settled();
  await app.selectPart('Converter');
  await app.press('ArrowDown');
  await app.saved();
  expect(await asked(page)).toBe(1);
  expect(wrong).toEqual([]);
});

test('where nothing is kept the page says so, the first edit offers a file that holds the plan as it stands, and leaving asks first', async ({
  page,
  context,
}) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('not here', 'SecurityError');
    };
  });
  const app = await spied(page);
  await app.openStart();
  await expect(app.toast).toContainText('keeps nothing', { timeout: 2000 });
  // No plan yet: nothing that could be saved is offered.
  await expect(app.toast.getByRole('button')).toHaveCount(1);
  await app.openFile('small.plan.json', JSON.stringify(smallPlan()));
  await app.settled();
  await app.closeToast();
  await app.selectPart('Converter');
  await app.press('ArrowDown');
  await expect(app.toast).toContainText('keeps nothing');
  await expect(app.saveState).toHaveText(/^Not saved/);
  const before = smallPlan().parts.p14;
  const edited = await app.plan();
  expect(edited.parts.p14?.y).toBe((before?.y ?? 0) + 10);

  const saving = page.waitForEvent('download');
  await app.click(app.toast.getByRole('button', { name: 'Save as a file' }));
  const download = await saving;
  expect(download.suggestedFilename()).toBe('Small plan.plan.json');
  const text = readFileSync(await download.path(), 'utf8');
  expect(JSON.parse(text) as Plan).toEqual(edited);
  expect(await asked(page), 'nothing is there to be kept').toBe(0);

  const asks = page.waitForEvent('dialog');
  await page.close({ runBeforeUnload: true });
  const dialog = await asks;
  expect(dialog.type()).toBe('beforeunload');
  await dialog.dismiss();

  // Another browser reads it.
  const other = new App(await context.newPage());
  await other.openStart();
  await other.openFile(download.suggestedFilename(), text);
  await other.settled();
  expect((await other.plan()).parts).toEqual(edited.parts);
});
