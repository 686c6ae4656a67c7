import { expect, type Locator, type Page } from '@playwright/test';
import type { Box, Point } from '../src/drawing/types.ts';
import type { End, Part, Plan, Wire } from '../src/plan/types.ts';

/** Why a pad, part or wire could not be reached: the message names it. */
export class NotThere extends Error {}

/**
 * Pointer, keys and the drawing. Parts go by their name on the drawing or, without one, by their kind; `resistor#2` is
 * the second such part, `Supply fuse.2` its terminal 2. Pointer actions (a click or a drag is one, and so is a turn of
 * the wheel) and typed characters are counted.
 */
export class Drawing {
  pointerActions = 0;
  typedCharacters = 0;

  constructor(readonly page: Page) {}

  get canvas(): Locator {
    return this.page.locator('.surface');
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
    // As one text: a tree of values takes several times as long to hand over.
    const text = await this.page.evaluate(() => JSON.stringify(window.__surface?.plan() ?? null));
    const plan = JSON.parse(text) as Plan | null;
    if (!plan) throw new NotThere('no plan is open');
    return plan;
  }

  async part(ref: string): Promise<Part> {
    return partOf(await this.plan(), ref);
  }

  /** The wire between two terminals, either way round; null when there is none. */
  async findWire(a: string, b: string): Promise<Wire | null> {
    const plan = await this.plan();
    const [from, to] = [endOf(plan, a), endOf(plan, b)];
    const same = (x: End, y: End) => x.part === y.part && x.terminal === y.terminal;
    const wires = Object.values(plan.wires);
    return wires.find((w) => (same(w.from, from) && same(w.to, to)) || (same(w.from, to) && same(w.to, from))) ?? null;
  }

  async wireBetween(a: string, b: string): Promise<Wire> {
    const wire = await this.findWire(a, b);
    if (!wire) throw new NotThere(`no wire from ${a} to ${b}`);
    return wire;
  }

  // --- where things are on screen

  async pad(ref: string): Promise<Point> {
    const { part, terminal } = endOf(await this.plan(), ref);
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

  protected async inView(...points: readonly Point[]): Promise<boolean> {
    const { x, y, w, h } = await this.canvasBox();
    return points.every((p) => p.x > x + 4 && p.x < x + w - 4 && p.y > y + 4 && p.y < y + h - 4);
  }

  /** Shows the whole plan (key F), with the pointer's focus on the drawing. */
  async fit(): Promise<void> {
    await this.press('f');
  }
}

export function middleOf(box: Box): Point {
  return { x: box.x + box.w / 2, y: box.y + box.h / 2 };
}

function partOf(plan: Plan, ref: string): Part {
  const [name, nth] = ref.split('#');
  const found = serially(Object.values(plan.parts)).filter((p) => p.name === name || p.kind === name);
  const part = found[Number(nth ?? 1) - 1];
  if (!part) throw new NotThere(`no part "${ref}" on the plan`);
  return part;
}

function endOf(plan: Plan, ref: string): End {
  const dot = ref.lastIndexOf('.');
  return { part: partOf(plan, ref.slice(0, dot)).id, terminal: ref.slice(dot + 1) };
}

/** Rows by the serial in their id: p2 before p10. */
function serially<T extends { readonly id: string }>(rows: readonly T[]): T[] {
  return [...rows].sort((a, b) => Number(a.id.slice(1)) - Number(b.id.slice(1)));
}
