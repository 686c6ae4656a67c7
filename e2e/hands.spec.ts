import { expect, type Page } from '@playwright/test';
import type { Plan } from '../src/plan/types.ts';
import { App } from './app.ts';
import { middleOf } from './drawing.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

const FEED_WIRE = ['Fuse.2', 'Converter.in'] as const;

async function opened(page: Page): Promise<App> {
  const app = new App(page);
  await app.openPlan(smallPlan());
  return app;
}

/** What the plan holds, without the serial that only grows. */
const held = ({ parts, wires }: Plan) => ({ parts, wires });

test.describe('with the mouse', () => {
  test('an in-line part dropped on a wire is cut into it', async ({ page }) => {
    const app = await opened(page);
    const before = await app.plan();
    const { id } = await app.wireBetween(...FEED_WIRE);
    await app.takeFromShelf('Switch', 'Master switch', await app.wireMid(id));
    const between = [await app.findWire('Fuse.2', 'master-switch.1'), await app.findWire('master-switch.2', 'Converter.in')];
    expect(between).not.toContain(null);
    expect(await app.findWire(...FEED_WIRE)).toBeNull();
    await app.undo();
    expect(held(await app.plan())).toEqual(held(before));
  });

  test('a loose part of the plan dragged onto a wire is cut into it', async ({ page }) => {
    const app = await opened(page);
    const { id } = await app.wireBetween(...FEED_WIRE);
    await app.drag(await app.middle('Resistor'), await app.wireMid(id));
    expect(await app.findWire('Fuse.2', 'Resistor.1')).not.toBeNull();
    expect(await app.findWire('Resistor.2', 'Converter.in')).not.toBeNull();
  });

  test('a drag whose end the page never hears leaves nothing in the hand', async ({ page }) => {
    const app = await opened(page);
    const at = await app.middle('Resistor');
    const before = await app.part('Resistor');
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x + 60, at.y + 60, { steps: 3 });
    // A dialog of the browser takes the release for itself.
    await page.evaluate(() => window.addEventListener('pointerup', (e) => e.stopImmediatePropagation(), { capture: true, once: true }));
    await page.mouse.up();
    await app.clickAt(await app.middle('Fuse'));
    expect(await app.part('Resistor')).toEqual(before);
    // The drawing follows the plan again.
    const was = (await app.box('Fuse')).x;
    await app.press('Shift+ArrowRight');
    await expect.poll(async () => (await app.box('Fuse')).x).toBeGreaterThan(was + 10);
  });

  test('a wire dropped on a wire makes a splice', async ({ page }) => {
    const app = await opened(page);
    const before = await app.plan();
    const { id } = await app.wireBetween(...FEED_WIRE);
    await app.drag(await app.pad('Resistor.1'), await app.wireMid(id));
    for (const end of ['Fuse.2', 'Converter.in', 'Resistor.1']) expect(await app.findWire(end, 'splice.s'), end).not.toBeNull();
    await app.undo();
    expect(held(await app.plan())).toEqual(held(before));
  });

  test('the vehicle’s own leads take no splice, and the page says why', async ({ page }) => {
    const app = await opened(page);
    const before = await app.plan();
    await app.clickAt(await app.pad('Resistor.1'));
    await app.clickAt(await app.wireMid((await app.wireBetween('battery.+', 'Feed.in')).id));
    await expect(app.toast).toContainText('vehicle');
    expect(await app.plan()).toEqual(before);
  });

  test('two clicks on terminals join them, Escape puts the wire down', async ({ page }) => {
    const app = await opened(page);
    await app.clickAt(await app.pad('Resistor.2'));
    const list = page.getByRole('dialog', { name: /^Wire from Resistor/ });
    await expect(list).toBeVisible();
    await app.press('Escape');
    await expect(list).toHaveCount(0);
    await app.clickAt(await app.pad('Resistor.2'));
    await app.clickAt(await app.pad('Converter.out'));
    expect(await app.findWire('Resistor.2', 'Converter.out')).not.toBeNull();
  });

  test('a box selects what lies in it; a drag moves it in one undo entry; Escape gives a drag up', async ({ page }) => {
    const app = await opened(page);
    const [a, b] = [await app.box('Converter'), await app.box('Resistor')];
    const corner = { x: Math.min(a.x, b.x) - 12, y: Math.min(a.y, b.y) - 12 };
    const far = { x: Math.max(a.x + a.w, b.x + b.w) + 12, y: Math.max(a.y + a.h, b.y + b.h) + 12 };
    await app.drag(corner, far);
    await expect(app.answers.getByText(/^2 parts/)).toBeVisible();

    const before = await app.plan();
    const zoom = await app.zoom();
    const grip = middleOf(b);
    await app.drag(grip, { x: grip.x + 40 * zoom, y: grip.y + 60 * zoom });
    const after = await app.plan();
    for (const id of ['p14', 'p16']) expect(moveOf(before, after, id), id).toEqual([40, 60]);
    await app.undo();
    expect(held(await app.plan())).toEqual(held(before));

    await page.mouse.move(grip.x, grip.y);
    await page.mouse.down();
    await page.mouse.move(grip.x + 60, grip.y + 60, { steps: 3 });
    await app.press('Escape');
    await page.mouse.up();
    expect(held(await app.plan())).toEqual(held(before));
  });

  test('a part moved into another zone takes its wires’ lengths along', async ({ page }) => {
    const app = await opened(page);
    await app.selectWire(...FEED_WIRE);
    // 2.2 m of run and 0.3 m at each end.
    await expect(app.card.getByLabel('Length', { exact: true })).toHaveValue(/^2\.8\s*m$/);
    await app.drag(await app.middle('Converter'), await app.inZone('Desk', 110, 320));
    expect((await app.part('Converter')).zone).toBe('z4');
    await app.selectWire(...FEED_WIRE);
    await expect(app.card.getByLabel('Length', { exact: true })).toHaveValue(/^5\.2\s*m$/);
    await app.undo();
    await expect(app.card.getByLabel('Length', { exact: true })).toHaveValue(/^2\.8\s*m$/);
  });

  test('a wire pushed aside keeps its bends until it is routed again', async ({ page }) => {
    const app = await opened(page);
    const { id } = await app.wireBetween(...FEED_WIRE);
    const mid = await app.wireMid(id);
    await app.drag(mid, { x: mid.x, y: mid.y + 60 });
    expect((await app.plan()).wires[id]?.bends?.length).toBeGreaterThan(0);
    await app.clickAt(await app.wireMid(id));
    await app.press('r');
    expect((await app.plan()).wires[id]?.bends).toBeUndefined();
    await app.undo();
    await app.click(app.card.getByRole('button', { name: 'Let it find its own way' }));
    expect((await app.plan()).wires[id]?.bends).toBeUndefined();
    await expect(app.card.getByRole('button', { name: 'Let it find its own way' })).toHaveCount(0);
  });

  test('the view pans, zooms at the pointer and fits', async ({ page }) => {
    const app = await opened(page);
    const at = await app.middle('Converter');
    await app.drag({ x: at.x, y: at.y + 200 }, { x: at.x - 80, y: at.y + 230 }, { button: 'middle' });
    const panned = await app.middle('Converter');
    expect(near(panned, { x: at.x - 80, y: at.y + 30 })).toBe(true);

    await page.mouse.move(panned.x, panned.y);
    await page.mouse.wheel(0, 120);
    await expect.poll(async () => Math.round((await app.middle('Converter')).y)).toBe(Math.round(panned.y - 120));

    const before = await app.zoom();
    const here = await app.middle('Converter');
    await app.zoomBy(-200, here);
    expect(await app.zoom()).toBeGreaterThan(before * 1.3);
    expect(near(await app.middle('Converter'), here)).toBe(true);

    await app.fit();
    const { x, y, w, h } = await app.canvasBox();
    for (const name of ['battery', 'Converter', 'Battery strap']) {
      const box = await app.box(name);
      expect(box.x > x && box.y > y && box.x + box.w < x + w && box.y + box.h < y + h, name).toBe(true);
    }
  });

  test('a header cell that is taken refuses a second wire in plain words', async ({ page }) => {
    const app = await opened(page);
    await app.takeFromShelf('Compute', 'Computer', await app.inZone('Desk', 110, 330));
    await app.fit();
    await app.wire('Resistor.2', 'computer.11');
    await app.clickAt(await app.pad('Resistor.1'));
    await app.clickAt(await app.pad('computer.11'));
    await expect(app.toast).toContainText('A header cell takes one wire');
    expect(await app.findWire('Resistor.1', 'computer.11')).toBeNull();
  });
});

test.describe('with the keyboard', () => {
  test('copy, paste, turn, nudge and delete; everything is undone and done again', async ({ page }) => {
    const app = await opened(page);
    const states = [held(await app.plan())];
    const note = async () => states.push(held(await app.plan()));
    await app.selectPart('Converter');
    await app.press('r');
    await note();
    expect((await app.part('Converter')).turn).toBe(1);
    await app.press('ArrowDown');
    await note();
    expect(moveOf(states[1] as Plan, await app.plan(), 'p14')).toEqual([0, 10]);
    await app.press('Control+c');
    await app.press('Control+v');
    await note();
    expect((await app.part('Converter#2')).turn).toBe(1);
    // The copy is what is selected now.
    await app.press('Delete');
    await note();
    expect(states.at(-1)).toEqual(states[2]);
    await app.selectPart('Fuse');
    await app.press('Delete');
    await note();
    await expect(app.part('Fuse')).rejects.toThrow('no part');
    expect(await app.findWire('battery.+', 'Feed.in')).not.toBeNull();

    for (let i = states.length - 2; i >= 0; i--) {
      await app.press('Control+z');
      expect(held(await app.plan()), `after ${states.length - 1 - i} undone`).toEqual(states[i]);
    }
    await expect(app.undoButton).toBeDisabled();
    for (const [i, state] of states.entries()) {
      if (i === 0) continue;
      await app.press('Control+Shift+z');
      expect(held(await app.plan()), `after ${i} done again`).toEqual(state);
    }
    await expect(app.redoButton).toBeDisabled();
  });

  test('the key slides by arrows', async ({ page }) => {
    const app = await opened(page);
    const stop = (name: string) => page.getByRole('radio', { name: new RegExp(`^${name}`) });
    await stop('Running').focus();
    await app.press('ArrowRight');
    await expect(stop('Held')).toBeChecked();
    await app.press('ArrowLeft');
    await app.press('ArrowLeft');
    await expect(stop('Start')).toBeChecked();
    // Arrows on the key move no part.
    await app.selectPart('Converter');
    const { x } = await app.part('Converter');
    await stop('Start').focus();
    await app.press('ArrowLeft');
    await expect(stop('Ignition')).toBeChecked();
    expect((await app.part('Converter')).x).toBe(x);
  });

  test('from the outline: choose, nudge, and wire to a sensible end, without a pointer', async ({ page }) => {
    const app = await opened(page);
    await app.outline.getByRole('button', { name: /^Converter/ }).focus();
    await app.press('Enter');
    await expect(app.outline.getByRole('button', { name: /^Converter/ })).toHaveAttribute('aria-pressed', 'true');
    const before = await app.plan();
    await app.press('Shift+ArrowDown');
    expect(moveOf(before, await app.plan(), 'p14')).toEqual([0, 50]);

    await app.outline.getByRole('list', { name: 'Terminals' }).getByRole('button', { name: /^0v?/i }).first().focus();
    await app.press('Enter');
    const ends = page.getByRole('dialog', { name: /^Wire from Converter/ });
    await expect(ends).toBeVisible();
    const first = ends.getByRole('listitem').first().getByRole('button');
    await first.focus();
    await app.press('Enter');
    await expect(ends).toHaveCount(0);
    expect(Object.keys((await app.plan()).wires)).toHaveLength(Object.keys(before.wires).length + 1);
    expect(app.pointerActions).toBe(0);
  });

  test('from the shelf: Enter puts a part into the chosen zone', async ({ page }) => {
    const app = await opened(page);
    await app.shelf.getByRole('combobox', { name: /Enter puts it in/ }).selectOption({ label: 'Desk' });
    await app.shelf.getByRole('button', { name: 'Touch display', exact: true }).focus();
    await app.press('Enter');
    expect((await app.part('touch-display')).zone).toBe('z4');
    await app.press('Control+z');
    await expect(app.part('touch-display')).rejects.toThrow('no part');
  });
});

function moveOf(before: Pick<Plan, 'parts'>, after: Plan, id: string): [number, number] {
  const [a, b] = [before.parts[id], after.parts[id]];
  return a && b ? [b.x - a.x, b.y - a.y] : [Number.NaN, Number.NaN];
}

function near(a: { x: number; y: number }, b: { x: number; y: number }): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) < 3;
}
