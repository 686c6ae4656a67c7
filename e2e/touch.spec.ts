import { type CDPSession, expect, type Page } from '@playwright/test';
import type { Point } from '../src/drawing/types.ts';
import { App } from './app.ts';
import { middleOf } from './drawing.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

// A phone held upright.
test.use({ hasTouch: true, viewport: { width: 390, height: 844 } });

/** Fingers on the glass, by the browser's own touch events. */
class Fingers {
  private constructor(private readonly client: CDPSession) {}

  static async on(page: Page): Promise<Fingers> {
    return new Fingers(await page.context().newCDPSession(page));
  }

  private send(type: 'touchStart' | 'touchMove' | 'touchEnd', points: readonly Point[]): Promise<unknown> {
    return this.client.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(({ x, y }, id) => ({ x, y, id })) });
  }

  async tap(at: Point): Promise<void> {
    await this.send('touchStart', [at]);
    await this.send('touchEnd', []);
  }

  /** Moves fingers, each from a place to a place, in step. */
  async move(ways: readonly (readonly [Point, Point])[], steps = 6): Promise<void> {
    const at = (share: number) => ways.map(([a, b]) => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }));
    await this.send('touchStart', at(0));
    for (let i = 1; i <= steps; i++) await this.send('touchMove', at(i / steps));
    await this.send('touchEnd', []);
  }

  drag(from: Point, to: Point, steps?: number): Promise<void> {
    return this.move([[from, to]], steps);
  }
}

async function opened(page: Page): Promise<{ app: App; fingers: Fingers }> {
  const app = new App(page);
  await app.openStart();
  await app.openFile('test.plan.json', JSON.stringify(smallPlan()));
  await page.waitForFunction(() => (window.__surface?.plan() ?? null) !== null);
  await app.closeToast();
  return { app, fingers: await Fingers.on(page) };
}

test('a part dragged from the drawer of parts lands in the zone', async ({ page }) => {
  const { app, fingers } = await opened(page);
  await page.getByRole('button', { name: 'Parts', exact: true }).tap();
  const item = app.shelf.getByRole('button', { name: 'Touch display', exact: true });
  await item.scrollIntoViewIfNeeded();
  const box = await item.boundingBox();
  if (!box) throw new Error('not on the shelf');
  const { x, y, w, h } = await app.canvasBox();
  await fingers.drag({ x: box.x + 40, y: box.y + box.height / 2 }, { x: x + w * 0.6, y: y + h * 0.6 }, 10);
  await expect.poll(async () => Object.values((await app.plan()).parts).map((p) => p.kind)).toContain('touch-display');
  await expect(page.getByRole('dialog', { name: 'Parts' })).toHaveCount(0);

  // Tapped instead of dragged: the drawing says what is in the hand until it has its place, or is put back.
  const inHand = page.getByText('Resistor: tap its place.');
  const take = async () => {
    await page.getByRole('button', { name: 'Parts', exact: true }).tap();
    await app.shelf.getByRole('searchbox').fill('resistor');
    await app.shelf
      .getByRole('button', { name: /^Resistor/ })
      .first()
      .tap();
    await expect(inHand).toBeVisible();
  };
  const before = Object.keys((await app.plan()).parts).length;
  // Sooner after the drag the browser takes a tap for half of a double one; no finger is that quick.
  await page.waitForTimeout(500);
  await take();
  await page.getByRole('button', { name: 'Put it back' }).tap();
  await expect(inHand).toHaveCount(0);
  await page.touchscreen.tap(x + w * 0.5, y + h * 0.3);
  expect(Object.keys((await app.plan()).parts)).toHaveLength(before);
  await take();
  // Two fingers look for the place: they put nothing down.
  const middle = { x: x + w * 0.5, y: y + h * 0.3 };
  const aside = (by: number): Point => ({ x: middle.x + by, y: middle.y });
  await fingers.move([
    [aside(-30), aside(-70)],
    [aside(30), aside(70)],
  ]);
  await expect(inHand).toBeVisible();
  expect(Object.keys((await app.plan()).parts)).toHaveLength(before);
  await page.touchscreen.tap(middle.x, middle.y);
  await expect(inHand).toHaveCount(0);
  expect(Object.keys((await app.plan()).parts)).toHaveLength(before + 1);
});

test('a finger draws a wire, moves a part, and taps from terminal to terminal', async ({ page }) => {
  const { app, fingers } = await opened(page);
  await app.fit();
  await fingers.drag(await app.pad('Resistor.2'), await app.pad('Converter.out'));
  expect(await app.findWire('Resistor.2', 'Converter.out')).not.toBeNull();

  const before = await app.part('Battery strap');
  const at = await app.middle('Resistor');
  const was = await app.part('Resistor');
  await fingers.drag(at, { x: at.x + 30, y: at.y + 60 });
  const now = await app.part('Resistor');
  expect(now.y - was.y).toBeGreaterThan(20);
  expect(await app.part('Battery strap')).toEqual(before);

  await fingers.tap(await app.pad('Resistor.1'));
  const ends = page.getByRole('dialog', { name: /^Wire from Resistor/ });
  await expect(ends).toBeVisible();
  for (const end of await ends.getByRole('listitem').getByRole('button').all()) expect((await end.boundingBox())?.height).toBeGreaterThanOrEqual(44);
  await ends.getByRole('listitem').first().getByRole('button').tap();
  await expect(ends).toHaveCount(0);
  expect(Object.keys((await app.plan()).wires)).toHaveLength(Object.keys(smallPlan().wires).length + 2);
});

test('two fingers zoom about what lies between them, one moves the view, a swipe brings the next zone', async ({ page }) => {
  const { app, fingers } = await opened(page);
  const here = page.getByRole('navigation', { name: 'Zones' }).getByTitle('Fill the screen with this zone');
  await expect(here).toContainText('1 of ');
  const { x, y, w, h } = await app.canvasBox();
  const low = y + h * 0.8;
  await fingers.drag({ x: x + w - 40, y: low }, { x: x + 60, y: low }, 4);
  await expect(here).toContainText('2 of ');
  await fingers.drag({ x: x + 60, y: low }, { x: x + w - 40, y: low }, 4);
  await expect(here).toContainText('1 of ');

  const zoom = await app.zoom();
  const middle = { x: x + w / 2, y: y + h / 2 };
  const world = (at: Point) => page.evaluate(({ x, y }) => window.__surface?.screenToWorld(x, y) ?? null, at);
  const held = await world(middle);
  await fingers.move([
    [
      { x: middle.x - 40, y: middle.y },
      { x: middle.x - 100, y: middle.y },
    ],
    [
      { x: middle.x + 40, y: middle.y },
      { x: middle.x + 100, y: middle.y },
    ],
  ]);
  expect(await app.zoom()).toBeGreaterThan(zoom * 1.8);
  const after = await world(middle);
  expect(Math.hypot((after?.x ?? 0) - (held?.x ?? 0), (after?.y ?? 0) - (held?.y ?? 0))).toBeLessThan(6);

  // Zoomed in, a finger on free ground moves the view with it.
  const from = { x: middle.x, y: low };
  const under = await world(from);
  await fingers.drag(from, { x: from.x - 50, y: from.y - 70 });
  const there = await world({ x: from.x - 50, y: from.y - 70 });
  expect(Math.hypot((there?.x ?? 0) - (under?.x ?? 0), (there?.y ?? 0) - (under?.y ?? 0))).toBeLessThan(6);
});

test('a resting finger opens the menu; what it removes, undo brings back', async ({ page }) => {
  const { app } = await opened(page);
  await app.fit();
  const at = middleOf(await app.box('Resistor'));
  const client = await page.context().newCDPSession(page);
  await client.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at] });
  const menu = page.getByRole('dialog', { name: /^What to do/ });
  await expect(menu).toBeVisible();
  await client.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await menu.getByRole('button', { name: /^Remove/ }).tap();
  await expect(app.part('Resistor')).rejects.toThrow('no part');
  await app.undoButton.tap();
  expect((await app.part('Resistor')).kind).toBe('resistor');
});

test('what a finding shows is seen: the sheet of answers goes, and the part comes into view', async ({ page }) => {
  const app = new App(page);
  await app.openStart();
  await page.getByRole('button', { name: 'Try the demo' }).tap();
  await page.getByRole('button', { name: /No hazard, no fault found/ }).tap({ timeout: 20_000 });
  const answers = page.getByRole('dialog', { name: 'Answers' });
  await answers.getByRole('button', { name: 'Fuse at the far end' }).tap();
  const card = answers.getByRole('article', { name: /^Hazard: / });
  await card.getByRole('button', { name: 'Show me' }).tap();
  await expect(answers).toHaveCount(0);
  const { x, y, w, h } = await app.canvasBox();
  await expect.poll(async () => (await app.middle('Supply fuse')).x - x).toBeGreaterThan(0);
  const at = await app.middle('Supply fuse');
  expect(at.x).toBeLessThan(x + w);
  expect(at.y).toBeGreaterThan(y);
  expect(at.y).toBeLessThan(y + h);
  // The way back tells what is selected and what was found, each for itself.
  await expect(page.locator('.foot-buttons .btn.grow')).toHaveText(/^Supply fuse1 hazard$/);
});
