import { expect, type Page } from '@playwright/test';
import type { Box } from '../src/drawing/types.ts';
import { App } from './app.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

const zoneBox = async (page: Page, id: string): Promise<Box> => {
  const box = await page.evaluate((z) => window.__surface?.zoneBox(z) ?? null, id);
  if (!box) throw new Error(`zone ${id} is not drawn`);
  return box;
};
const widthOf = async (app: App, id: string) => (await app.plan()).zones[id]?.width;
/** Free ground at the height of the view's middle, on the edge of a zone. */
async function edgeOf(app: App, page: Page, id: string) {
  const [zone, canvas] = [await zoneBox(page, id), await app.canvasBox()];
  return { x: zone.x + zone.w, y: canvas.y + canvas.h * 0.45 };
}

test('a mouse drags a zone’s edge in steps, never below what it holds, each drag one step of undo; the buttons do the same', async ({ page }) => {
  const app = new App(page);
  await app.openPlan(smallPlan());
  await app.fit();
  const stage = page.locator('.surface-stage');
  const zoom = await app.zoom();
  const before = await app.plan();
  const was = (await zoneBox(page, 'z2')).w / zoom;

  const edge = await edgeOf(app, page, 'z2');
  await page.mouse.move(edge.x - 40, edge.y);
  await expect(stage).not.toHaveCSS('cursor', /resize/);
  await page.mouse.move(edge.x + 2, edge.y);
  await expect(stage).toHaveCSS('cursor', 'e-resize');
  await app.drag(edge, { x: edge.x + 133 * zoom, y: edge.y + 30 });
  const wide = Math.round((was + 133) / 20) * 20;
  expect(await widthOf(app, 'z2')).toBe(wide);
  await expect.poll(async () => Math.round((await zoneBox(page, 'z2')).w / zoom)).toBe(wide);
  // Now it can go both ways.
  const there = await edgeOf(app, page, 'z2');
  await page.mouse.move(there.x, there.y);
  await expect(stage).toHaveCSS('cursor', 'col-resize');

  // Two of the same within half a second would be one step of undo; no hand is that quick.
  await page.waitForTimeout(600);
  await app.drag(there, { x: there.x - 600 * zoom, y: there.y });
  await expect.poll(async () => Math.round((await zoneBox(page, 'z2')).w / zoom)).toBe(Math.round(was));
  await app.undo();
  expect(await widthOf(app, 'z2')).toBe(wide);
  await app.undo();
  expect((await app.plan()).zones).toEqual(before.zones);
  expect((await app.plan()).parts).toEqual(before.parts);

  // Given up by Escape: nothing has happened.
  const again = await edgeOf(app, page, 'z2');
  await page.mouse.move(again.x, again.y);
  await page.mouse.down();
  await page.mouse.move(again.x + 100, again.y, { steps: 3 });
  await page.keyboard.press('Escape');
  await page.mouse.up();
  expect((await app.plan()).zones).toEqual(before.zones);

  await app.openTab('Vehicle');
  await app.answers.getByText('Zones', { exact: true }).click();
  const button = (name: string) => app.answers.getByRole('button', { name });
  await expect(button('Make Behind the radio narrower')).toBeDisabled();
  await button('Make Behind the radio wider').press('Enter');
  expect(await widthOf(app, 'z2')).toBe(Math.round(was) + 80);
  await button('Make Behind the radio narrower').press('Enter');
  expect(await widthOf(app, 'z2')).toBe(Math.round(was));
  await expect(button('Make Behind the radio narrower')).toBeDisabled();
});

test.describe('on a phone', () => {
  test.use({ hasTouch: true, viewport: { width: 390, height: 844 } });

  test('a tap on a zone’s name shows its grip, and a finger pulls it, beyond the side of the glass too', async ({ page }) => {
    const app = new App(page);
    await app.openStart();
    await app.openFile('test.plan.json', JSON.stringify(smallPlan()));
    await page.waitForFunction(() => (window.__surface?.plan() ?? null) !== null);
    await app.closeToast();
    const client = await page.context().newCDPSession(page);
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]) =>
      client.send('Input.dispatchTouchEvent', { type, touchPoints });
    const pull = async (from: { x: number; y: number }, to: number, rest = 0) => {
      await send('touchStart', [from]);
      for (let i = 1; i <= 6; i++) await send('touchMove', [{ x: from.x + ((to - from.x) * i) / 6, y: from.y }]);
      await page.waitForTimeout(rest);
      await send('touchEnd', []);
    };
    await page.getByRole('button', { name: 'Next zone' }).tap();
    await expect(page.getByTitle('Fill the screen with this zone')).toContainText('2 of ');
    const zoom = await app.zoom();
    const zone = await zoneBox(page, 'z2');
    const was = Math.round(zone.w / zoom);
    const canvas = await app.canvasBox();
    const y = canvas.y + canvas.h * 0.6;

    // Without the grip a finger there swipes to the next zone.
    await pull({ x: zone.x + zone.w - 10, y }, zone.x + zone.w - 120);
    expect(await widthOf(app, 'z2')).toBeNull();
    await expect(page.getByTitle('Fill the screen with this zone')).toContainText('3 of ');
    await page.getByRole('button', { name: 'Zone before' }).click();
    await expect(page.getByTitle('Fill the screen with this zone')).toContainText('2 of ');

    const here = await zoneBox(page, 'z2');
    await page.touchscreen.tap(here.x + 40, here.y + 25 * zoom);
    // 20 px beside the line is still the grip; at the side of the glass the view moves along.
    await pull({ x: Math.min(here.x + here.w, canvas.x + canvas.w - 22) - 20, y }, canvas.x + canvas.w - 3, 400);
    await expect.poll(() => widthOf(app, 'z2')).toBeGreaterThan(was + 60);
    await app.undoButton.tap();
    expect(await widthOf(app, 'z2')).toBeNull();
    await expect(app.undoButton).toBeDisabled();
  });
});
