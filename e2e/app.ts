import { expect, type Locator, type Page } from '@playwright/test';
import type { Box, Point } from '../src/drawing/types.ts';
import type { End, Part, Plan, Wire } from '../src/plan/types.ts';

export const KEYS = ['Parked', 'Accessory', 'Ignition', 'Start', 'Running', 'Held'] as const;
export type Key = (typeof KEYS)[number];

/** Why a pad, part or wire could not be reached: the message names it. */
class NotThere extends Error {}

/**
 * The page as a person uses it: mouse, keys, and words on the screen. Parts go by their name on the drawing or, without
 * one, by their kind; `resistor#2` is the second such part, `Supply fuse.2` its terminal 2. Pointer actions (a click or
 * a drag is one, and so is a turn of the wheel) and typed characters are counted.
 */
export class App {
  pointerActions = 0;
  typedCharacters = 0;

  constructor(readonly page: Page) {}

  // --- the places on the page

  get canvas(): Locator {
    return this.page.locator('.surface');
  }
  get answers(): Locator {
    return this.page.getByRole('region', { name: 'Answers' });
  }
  get headline(): Locator {
    return this.answers.locator('.headline');
  }
  get shelf(): Locator {
    return this.page.getByRole('region', { name: 'Shelf of parts' });
  }
  get outline(): Locator {
    return this.page.getByRole('region', { name: 'Outline of the plan' });
  }
  get toast(): Locator {
    return this.page.locator('.toast');
  }
  get saveState(): Locator {
    return this.page.locator('.top-title .note');
  }
  get undoButton(): Locator {
    return this.page.getByRole('button', { name: /^(Undo: |Nothing to undo)/ });
  }
  get redoButton(): Locator {
    return this.page.getByRole('button', { name: /^(Redo: |Nothing to redo)/ });
  }
  get card(): Locator {
    return this.answers.getByRole('article', { name: /^Selected (wire|part)/ });
  }

  // --- ways in

  async openStart(): Promise<void> {
    await this.page.goto('./');
    await expect(this.page.getByRole('heading', { name: 'Dashloom', level: 1 })).toBeVisible();
  }

  async openDemo(): Promise<void> {
    await this.openStart();
    await this.click(this.page.getByRole('button', { name: 'Try the demo' }));
    await this.drawn();
    await this.settled();
    await this.closeToast();
  }

  /** "Plan mine": `answer` gives the answers on the page of questions; without it all stay at "I don't know". */
  async planMine(answer?: () => Promise<void>): Promise<void> {
    await this.openStart();
    await this.click(this.page.getByRole('button', { name: 'Plan mine' }));
    await answer?.();
    await this.click(this.page.getByRole('button', { name: 'Make the plan' }));
    await this.drawn();
    await this.settled();
  }

  /** Gives the page a file, as "Open a file" on the start screen or "Open a file …" in the menu does. */
  async openFile(name: string, text: string): Promise<void> {
    const file = { name, mimeType: 'application/json', buffer: Buffer.from(text) };
    await this.page.getByLabel('Plan file').first().setInputFiles(file);
  }

  async openPlan(plan: Plan): Promise<void> {
    await this.openStart();
    await this.openFile('test.plan.json', JSON.stringify(plan));
    await this.drawn();
    await this.settled();
    await this.closeToast();
  }

  private async drawn(): Promise<void> {
    await this.page.waitForFunction(() => window.__surface !== undefined && window.__surface.plan() !== null);
  }

  /** Waits until the answers belong to the plan as it stands. */
  async settled(): Promise<void> {
    await expect(this.headline.getByRole('heading')).not.toHaveText(/Working it out/, { timeout: 20_000 });
    await expect(this.headline).not.toContainText('working …', { timeout: 20_000 });
  }

  async saved(): Promise<void> {
    await expect(this.saveState).toHaveText('Saved here');
  }

  async closeToast(): Promise<void> {
    if (await this.toast.isVisible()) await this.toast.getByRole('button', { name: 'Close this message' }).click();
  }

  // --- pointer and keys, counted

  async click(target: Locator, options?: Parameters<Locator['click']>[0]): Promise<void> {
    this.pointerActions++;
    await target.click(options);
  }

  async clickAt(at: Point, options?: Parameters<Page['mouse']['click']>[2]): Promise<void> {
    this.pointerActions++;
    await this.page.mouse.click(at.x, at.y, options);
  }

  async drag(from: Point, to: Point, options: { readonly button?: 'left' | 'middle'; readonly shift?: boolean } = {}): Promise<void> {
    this.pointerActions++;
    const { mouse, keyboard } = this.page;
    const button = options.button ?? 'left';
    if (options.shift) await keyboard.down('Shift');
    await mouse.move(from.x, from.y);
    await mouse.down({ button });
    await mouse.move(from.x + 5, from.y + 5);
    await mouse.move(to.x, to.y, { steps: 4 });
    await mouse.up({ button });
    if (options.shift) await keyboard.up('Shift');
  }

  /** Turns the wheel with Ctrl held at a point; positive shows more. */
  async zoomBy(wheel: number, at: Point): Promise<void> {
    this.pointerActions++;
    const before = await this.zoom();
    await this.page.mouse.move(at.x, at.y);
    await this.page.keyboard.down('Control');
    await this.page.mouse.wheel(0, wheel);
    await this.page.keyboard.up('Control');
    await expect.poll(() => this.zoom()).not.toBe(before);
  }

  async press(key: string): Promise<void> {
    this.typedCharacters++;
    await this.page.keyboard.press(key);
  }

  async type(field: Locator, text: string): Promise<void> {
    this.typedCharacters += text.length;
    await field.fill(text);
  }

  // --- the plan

  /** The plan as it stands, to know what came of what was done. */
  async plan(): Promise<Plan> {
    const plan = await this.page.evaluate(() => window.__surface?.plan() ?? null);
    if (!plan) throw new NotThere('no plan is open');
    return plan;
  }

  async part(ref: string): Promise<Part> {
    const [name, nth] = ref.split('#');
    const found = serially(Object.values((await this.plan()).parts)).filter((p) => p.name === name || p.kind === name);
    const part = found[Number(nth ?? 1) - 1];
    if (!part) throw new NotThere(`no part "${ref}" on the plan`);
    return part;
  }

  async end(ref: string): Promise<End> {
    const dot = ref.lastIndexOf('.');
    return { part: (await this.part(ref.slice(0, dot))).id, terminal: ref.slice(dot + 1) };
  }

  /** The wire between two terminals, either way round; null when there is none. */
  async findWire(a: string, b: string): Promise<Wire | null> {
    const [from, to] = [await this.end(a), await this.end(b)];
    const same = (x: End, y: End) => x.part === y.part && x.terminal === y.terminal;
    const wires = Object.values((await this.plan()).wires);
    return wires.find((w) => (same(w.from, from) && same(w.to, to)) || (same(w.from, to) && same(w.to, from))) ?? null;
  }

  async wireBetween(a: string, b: string): Promise<Wire> {
    const wire = await this.findWire(a, b);
    if (!wire) throw new NotThere(`no wire from ${a} to ${b}`);
    return wire;
  }

  // --- where things are on screen

  async pad(ref: string): Promise<Point> {
    const { part, terminal } = await this.end(ref);
    const at = await this.page.evaluate(([p, t]) => window.__surface?.padAt(p, t) ?? null, [part, terminal] as const);
    if (!at) throw new NotThere(`${ref} is not drawn`);
    return at;
  }

  async box(ref: string): Promise<Box> {
    const box = await this.page.evaluate((id) => window.__surface?.partBox(id) ?? null, (await this.part(ref)).id);
    if (!box) throw new NotThere(`${ref} is not drawn`);
    return box;
  }

  async middle(ref: string): Promise<Point> {
    return middleOf(await this.box(ref));
  }

  async wireMid(id: string): Promise<Point> {
    const at = await this.page.evaluate((w) => window.__surface?.wireMid(w) ?? null, id);
    if (!at) throw new NotThere(`wire ${id} is not drawn`);
    return at;
  }

  /** A point of a zone, in drawing units from its left top corner. */
  async inZone(name: string, x: number, y: number): Promise<Point> {
    const zone = Object.values((await this.plan()).zones).find((z) => z.name === name);
    const box = zone && (await this.page.evaluate((id) => window.__surface?.zoneBox(id) ?? null, zone.id));
    if (!box) throw new NotThere(`no zone "${name}" is drawn`);
    const zoom = await this.zoom();
    return { x: box.x + x * zoom, y: box.y + y * zoom };
  }

  /** Screen pixels of one drawing unit. */
  async zoom(): Promise<number> {
    return this.page.evaluate(() => {
      const hook = window.__surface;
      return hook ? hook.worldToScreen(1, 0).x - hook.worldToScreen(0, 0).x : Number.NaN;
    });
  }

  async canvasBox(): Promise<Box> {
    const box = await this.canvas.boundingBox();
    if (!box) throw new NotThere('the drawing is not on the page');
    return { x: box.x, y: box.y, w: box.width, h: box.height };
  }

  private async inView(...points: readonly Point[]): Promise<boolean> {
    const { x, y, w, h } = await this.canvasBox();
    return points.every((p) => p.x > x + 4 && p.x < x + w - 4 && p.y > y + 4 && p.y < y + h - 4);
  }

  /** Shows the whole plan (key F), with the pointer's focus on the drawing. */
  async fit(): Promise<void> {
    await this.press('f');
  }

  // --- what a person does

  async turnKey(key: Key): Promise<void> {
    await this.click(this.page.getByRole('group', { name: /^Key/ }).getByText(key, { exact: true }));
  }

  /** Drags a part or set from its group on the shelf into a zone, its middle to a point of the zone in drawing units. */
  async dropFromShelf(group: string, title: string, zone: string, x: number, y: number): Promise<void> {
    if (!(await this.inView(await this.inZone(zone, x, y)))) await this.fit();
    await this.takeFromShelf(group, title, await this.inZone(zone, x, y));
  }

  /** Drags a part or set from its group on the shelf to a point on the screen. */
  async takeFromShelf(group: string, title: string, to: Point): Promise<void> {
    const item = this.shelf.getByRole('region', { name: group, exact: true }).getByRole('button', { name: title, exact: true });
    const before = await item.boundingBox();
    await item.scrollIntoViewIfNeeded();
    const box = await item.boundingBox();
    if (!box) throw new NotThere(`${title} is not on the shelf`);
    if (before?.y !== box.y) this.pointerActions++;
    await this.drag({ x: box.x + 30, y: box.y + box.height / 2 }, to);
  }

  /** Draws a wire from pad to pad. */
  async wire(a: string, b: string): Promise<void> {
    if (!(await this.inView(await this.pad(a), await this.pad(b)))) await this.fit();
    await this.drag(await this.pad(a), await this.pad(b));
    expect(await this.findWire(a, b), `a wire from ${a} to ${b}`).not.toBeNull();
  }

  async selectWire(a: string, b: string): Promise<void> {
    const { id } = await this.wireBetween(a, b);
    if (!(await this.inView(await this.wireMid(id)))) await this.fit();
    await this.clickAt(await this.wireMid(id));
    await expect(this.answers.getByRole('article', { name: /^Selected wire/ })).toBeVisible();
  }

  async selectPart(ref: string): Promise<void> {
    if (!(await this.inView(await this.middle(ref)))) await this.fit();
    await this.clickAt(await this.middle(ref));
    await expect(this.answers.getByRole('article', { name: /^Selected part/ })).toBeVisible();
  }

  async openTab(name: 'Findings' | 'Supply' | 'Pins' | 'Vehicle' | 'Selected'): Promise<void> {
    await this.click(this.answers.getByRole('tab', { name, exact: true }));
  }

  async undo(): Promise<void> {
    await this.click(this.undoButton);
  }
  async redo(): Promise<void> {
    await this.click(this.redoButton);
  }

  // --- what the page says

  /** The wire card's two large figures and the row of each key position, as texts. */
  async readWireCard(): Promise<{ readonly load: string; readonly drop: string; readonly six: Readonly<Record<Key, string>> }> {
    const large = await this.card.locator('.figures .big').allTextContents();
    const rows = await this.card
      .getByRole('table', { name: /at each key position/ })
      .getByRole('row')
      .all();
    const six: [string | null, string | null][] = [];
    for (const row of rows) six.push([await row.getByRole('rowheader').textContent(), await row.getByRole('cell').textContent()]);
    return { load: plain(large[0]), drop: plain(large[1]), six: Object.fromEntries(six.map(([k, v]) => [k, plain(v)])) as Record<Key, string> };
  }

  /** Cards of what was found, of one level or all. */
  findings(level?: 'Hazard' | 'Fault' | 'Advice'): Locator {
    return this.answers.getByRole('article', { name: level ? new RegExp(`^${level}: `) : /^(Hazard|Fault|Advice): / });
  }

  /** Takes the first repair that a card offers, or the named one; says yes where it asks first. */
  async mend(card: Locator, name: string | RegExp = /./): Promise<void> {
    const offer = card.locator('.repairs').getByRole('button', { name }).first();
    const asks = ((await offer.textContent()) ?? '').trim().endsWith('…');
    await this.click(offer);
    if (asks) await this.click(card.getByRole('button', { name: 'Change it' }));
  }
}

export function middleOf(box: Box): Point {
  return { x: box.x + box.w / 2, y: box.y + box.h / 2 };
}

/** Rows by the serial in their id: p2 before p10. */
function serially<T extends { readonly id: string }>(rows: readonly T[]): T[] {
  return [...rows].sort((a, b) => Number(a.id.slice(1)) - Number(b.id.slice(1)));
}

function plain(text: string | null | undefined): string {
  return (text ?? '').replace(/\s+/g, ' ').trim();
}
