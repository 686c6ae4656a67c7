import { expect, type Page } from '@playwright/test';
import type { Plan } from '../src/plan/types.ts';
import { App } from './app.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

/** Three parts that stand crooked, in one zone, to be chosen all. */
const CROOKED = ['p14', 'p16', 'p17'] as const;
function crooked(): Plan {
  const plan = smallPlan();
  const resistor = plan.parts.p16;
  if (!resistor) throw new Error('no resistor');
  return { ...plan, parts: { ...plan.parts, p17: { ...resistor, id: 'p17', name: 'Third', x: 140, y: 420 } } };
}

async function opened(page: Page): Promise<App> {
  const app = new App(page);
  await app.openPlan(crooked());
  return app;
}

const menu = (page: Page) => page.getByRole('dialog', { name: /^What to do/ });
const places = async (app: App): Promise<(readonly [number, number])[]> => {
  const { parts } = await app.plan();
  return CROOKED.map((id) => [parts[id]?.x ?? Number.NaN, parts[id]?.y ?? Number.NaN] as const);
};

/** A command as a person gives it: from the menu of a part, or by its key. */
type Way = (app: App, page: Page, title: RegExp, key: string, part: string) => Promise<void>;
const WAYS: readonly (readonly [string, Way])[] = [
  [
    'by mouse',
    async (app, page, title, _key, part) => {
      await app.clickAt(await app.middle(part), { button: 'right' });
      await app.click(menu(page).getByRole('button', { name: title }));
    },
  ],
  ['by keyboard', (app, _page, _title, key) => app.press(key)],
];

/** Chooses three parts: by mouse with shift, by keyboard in the outline with shift. */
async function chooseThree(app: App, how: string): Promise<void> {
  const names = ['Converter', 'Resistor', 'Third'];
  for (const [i, name] of names.entries()) {
    if (how === 'by mouse') {
      await app.page.keyboard.down('Shift');
      await app.clickAt(await app.middle(name));
      await app.page.keyboard.up('Shift');
    } else {
      await app.outline.getByRole('button', { name: new RegExp(`^${name}`) }).focus();
      await app.press(i === 0 ? 'Enter' : 'Shift+Enter');
    }
  }
  await expect(app.answers.getByText(/^3 parts/)).toBeVisible();
}

for (const [how, give] of WAYS) {
  test(`${how}: line up, space out, turn; each is one step of undo`, async ({ page }) => {
    const app = await opened(page);
    const before = await places(app);
    await chooseThree(app, how);
    await give(app, page, /^Line up left edges/, 'l', 'Resistor');
    const left = await places(app);
    expect(new Set(left.map(([x]) => x)).size).toBe(1);
    await give(app, page, /^Space out up and down/, 'Shift+G', 'Resistor');
    const boxes = await Promise.all(['Converter', 'Resistor', 'Third'].map((name) => app.box(name)));
    const sorted = boxes.sort((a, b) => a.y - b.y);
    const gap = (i: number) => (sorted[i + 1]?.y ?? 0) - (sorted[i]?.y ?? 0) - (sorted[i]?.h ?? 0);
    const zoom = await app.zoom();
    // Places lie on the grid of 10.
    expect(Math.abs(gap(0) - gap(1)) / zoom).toBeLessThanOrEqual(10);
    await app.press('Control+z');
    await app.press('Control+z');
    expect(await places(app)).toEqual(before);
    await give(app, page, /^Turn by a quarter/, 'r', 'Resistor');
    expect((await app.part('Third')).turn).toBe(1);
    if (how === 'by keyboard') expect(app.pointerActions).toBe(0);
  });

  test(`${how}: swap ends, duplicate with wires, replace by another kind`, async ({ page }) => {
    const app = await opened(page);
    if (how === 'by keyboard') {
      await app.press('/');
      await page.getByLabel('Name or number').fill('Fuse');
      await app.press('Enter');
      await expect(page.getByRole('article', { name: 'Selected part Fuse' })).toBeVisible();
    }
    await give(app, page, /^Swap its two ends/, 'e', 'Fuse');
    expect(await app.findWire('Fuse.1', 'Converter.in')).not.toBeNull();
    const wires = Object.keys((await app.plan()).wires).length;
    await give(app, page, /^Duplicate with its wires/, 'Control+Shift+d', 'Fuse');
    expect(Object.keys((await app.plan()).wires)).toHaveLength(wires + 2);
    await app.press('Control+z');
    await expect(app.outline.getByRole('button', { name: /^Fuse/ })).toHaveCount(1);
    if (how === 'by keyboard') {
      await app.outline.getByRole('button', { name: /^Fuse/ }).focus();
      await app.press('Enter');
    }
    await give(app, page, /^Replace by another kind/, 'k', 'Fuse');
    const kinds = page.getByRole('dialog', { name: 'Replace Fuse by' });
    const kind = kinds.getByRole('button', { name: /^Master switch/ });
    if (how === 'by mouse') await app.click(kind);
    else {
      await kinds.getByLabel('Search the kinds').fill('master switch');
      await app.press('ArrowDown');
      await expect(kinds.getByRole('button', { name: /keeps all its wires/ })).toBeFocused();
      await app.press('Enter');
    }
    expect((await app.part('Fuse')).kind).toBe('master-switch');
    expect(await app.findWire('Fuse.1', 'Converter.in'), 'its ends are still swapped').not.toBeNull();
    await app.press('Control+z');
    expect((await app.part('Fuse')).kind).toBe('blade-fuse');
    if (how === 'by keyboard') expect(app.pointerActions).toBe(0);
  });

  test(`${how}: find, show what is chosen large, show the whole plan`, async ({ page }) => {
    const app = await opened(page);
    if (how === 'by mouse') {
      await app.clickAt(await app.inZone('Desk', 100, 300), { button: 'right' });
      await app.click(menu(page).getByRole('button', { name: /^Find a part or wire/ }));
      await app.click(page.getByRole('dialog', { name: 'Find a part or wire' }).getByRole('button', { name: /Converter Under/ }));
    } else {
      await app.press('/');
      await page.getByLabel('Name or number').fill('Converter');
      await app.press('Enter');
    }
    await expect(page.getByRole('article', { name: 'Selected part Converter' })).toBeVisible();
    const zoom = await app.zoom();
    await give(app, page, /^Show what is chosen, large/, 'z', 'Converter');
    await expect.poll(() => app.zoom()).toBeGreaterThan(zoom);
    const { x, y, w, h } = await app.canvasBox();
    const box = await app.box('Converter');
    expect(box.x > x && box.x + box.w < x + w && box.y > y && box.y + box.h < y + h).toBe(true);
    if (how === 'by mouse') {
      await app.clickAt({ x: x + w - 12, y: y + 60 }, { button: 'right' });
      await app.click(menu(page).getByRole('button', { name: /^Show the whole plan/ }));
    } else await app.press('f');
    const strap = await app.middle('Battery strap');
    expect(strap.x > x && strap.x < x + w && strap.y > y && strap.y < y + h).toBe(true);
  });
}

test('by keyboard: what was copied is pasted into another plan', async ({ page }) => {
  const app = await opened(page);
  await app.outline.getByRole('button', { name: /^Converter/ }).focus();
  await app.press('Enter');
  await app.press('Control+c');
  await page.getByRole('button', { name: 'Plans and files' }).focus();
  await app.press('Enter');
  await app.openFile('other.plan.json', JSON.stringify({ ...smallPlan('Other plan'), parts: {}, wires: {} }));
  await expect(page.getByLabel('Title of the plan')).toHaveValue('Other plan');
  await app.press('Escape');
  await app.press('Control+v');
  expect((await app.part('Converter')).kind).toBe('step-down');
  expect(app.pointerActions).toBe(0);
});

test('a set from the shelf opens into its parts: each can be chosen, moved and removed alone', async ({ page }) => {
  const app = await opened(page);
  await app.takeFromShelf('Sets', 'Button with filter', await app.inZone('Desk', 120, 200));
  const button = await app.part('push-button');
  expect((await app.part('capacitor')).zone).toBe(button.zone);
  await app.fit();
  await app.selectPart('push-button');
  await app.press('Delete');
  await expect(app.part('push-button')).rejects.toThrow('no part');
  expect((await app.part('capacitor')).kind).toBe('capacitor');
});
