import { expect, type Page } from '@playwright/test';
import { App } from './app.ts';
import { barriers } from './axe.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

async function opened(page: Page): Promise<App> {
  const app = new App(page);
  await app.openPlan(smallPlan());
  return app;
}
const menu = (page: Page) => page.getByRole('dialog', { name: /^What to do/ });

test('by mouse: the menu of a part turns its ends round, that of the ground finds and lists', async ({ page }) => {
  const app = await opened(page);
  await app.clickAt(await app.middle('Fuse'), { button: 'right' });
  await app.click(menu(page).getByRole('button', { name: /^Swap its two ends/ }));
  await expect(menu(page)).toHaveCount(0);
  expect(await app.findWire('Fuse.1', 'Converter.in')).not.toBeNull();
  expect(await app.findWire('Fuse.2', 'Feed.out')).not.toBeNull();
  await app.undo();
  expect(await app.findWire('Fuse.2', 'Converter.in')).not.toBeNull();

  await app.clickAt(await app.wireMid((await app.wireBetween('Fuse.2', 'Converter.in')).id), { button: 'right' });
  await expect(menu(page).getByRole('button', { name: /^Remove/ })).toBeVisible();
  await app.press('Escape');
  await app.clickAt(await app.inZone('Desk', 100, 300), { button: 'right' });
  await app.click(menu(page).getByRole('button', { name: /^All commands/ }));
  await expect(page.getByRole('dialog', { name: 'All commands' })).toBeVisible();
  expect(await barriers(page, 'commands', { within: ['dialog'] })).toEqual([]);
});

test('by keyboard: the menu of what is chosen, and the list of all commands is searched', async ({ page }) => {
  const app = await opened(page);
  // Found by Enter: the key does not open again the menu that gave the way to the list.
  for (const name of ['How things are shown', /^Find a part or wire/]) {
    await page.getByRole('button', { name }).focus();
    await app.press('Enter');
  }
  await page.getByLabel('Name or number').fill('Resistor');
  await app.press('Enter');
  await expect(app.card).toBeVisible();
  await expect(page.locator(':popover-open')).toHaveCount(0);

  await app.press('/');
  await page.getByLabel('Name or number').fill('Converter');
  await app.press('Enter');
  await app.press('Shift+F10');
  await expect(menu(page).getByRole('button').first()).toBeFocused();
  await app.press('Escape');
  await expect(menu(page)).toHaveCount(0);

  await app.press('Control+a');
  await app.press('?');
  await page.getByLabel('Search the commands').fill('align top');
  await expect(page.getByRole('dialog', { name: 'All commands' }).getByRole('button')).toHaveText([/^Line up top edges/]);
  await app.press('Escape');
  expect(app.pointerActions).toBe(0);
});

test('what was copied is pasted into another plan', async ({ page }) => {
  const app = await opened(page);
  await app.selectPart('Resistor');
  await app.clickAt(await app.middle('Resistor'), { button: 'right' });
  await app.click(menu(page).getByRole('button', { name: /^Copy/ }));
  await app.click(page.getByRole('button', { name: 'Plans and files' }));
  await app.openFile('other.plan.json', JSON.stringify({ ...smallPlan('Other plan'), parts: {}, wires: {} }));
  await expect(page.getByLabel('Title of the plan')).toHaveValue('Other plan');
  await app.press('Escape');
  await app.clickAt(await app.inZone('Desk', 100, 300), { button: 'right' });
  await app.click(menu(page).getByRole('button', { name: /^Paste/ }));
  expect((await app.part('Resistor')).kind).toBe('resistor');
});

test.describe('by touch', () => {
  test.use({ hasTouch: true, viewport: { width: 390, height: 844 } });
  test('a resting finger opens the menu, with targets for a finger', async ({ page }) => {
    const app = new App(page);
    await app.openStart();
    await app.openFile('test.plan.json', JSON.stringify(smallPlan()));
    await page.waitForFunction(() => (window.__surface?.plan() ?? null) !== null);
    await app.fit();
    const at = await app.middle('Resistor');
    const client = await page.context().newCDPSession(page);
    await client.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at] });
    await expect(menu(page)).toBeVisible();
    await client.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    const turn = menu(page).getByRole('button', { name: /^Turn by a quarter/ });
    expect((await turn.boundingBox())?.height).toBeGreaterThanOrEqual(44);
    await turn.tap();
    expect((await app.part('Resistor')).turn).toBe(1);
  });
});
