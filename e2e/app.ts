import { expect, type Locator } from '@playwright/test';
import type { Point } from '../src/drawing/types.ts';
import type { Plan } from '../src/plan/types.ts';
import { Drawing, NotThere } from './drawing.ts';

export const KEYS = ['Parked', 'Accessory', 'Ignition', 'Start', 'Running', 'Held'] as const;
export type Key = (typeof KEYS)[number];

/** The page as a person uses it: mouse, keys, and words on the screen. */
export class App extends Drawing {
  // --- the places on the page

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
  get startTitle(): Locator {
    return this.page.getByRole('heading', { name: 'Dashloom', level: 1 });
  }
  get card(): Locator {
    return this.answers.getByRole('article', { name: /^Selected (wire|part)/ });
  }

  // --- ways in

  /** The start screen: of a page that stands at it already, of any other by opening the app. */
  async openStart(): Promise<void> {
    if (!(await this.startTitle.isVisible())) await this.page.goto('./');
    await this.atStart();
  }

  async atStart(): Promise<void> {
    await expect(this.startTitle).toBeVisible();
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
    // In words it is told only when it lasts.
    await expect(this.headline).not.toHaveAttribute('aria-busy', 'true', { timeout: 20_000 });
  }

  async saved(): Promise<void> {
    await expect(this.saveState).toHaveText(/^Saved here/);
  }

  async closeToast(): Promise<void> {
    const close = this.toast.getByRole('button', { name: 'Close this message' });
    // It goes by itself too, perhaps just now.
    if (await this.toast.isVisible()) await close.click({ timeout: 3000 }).catch(() => expect(this.toast).toHaveCount(0));
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
    const pads = async () => [await this.pad(a), await this.pad(b)] as const;
    let [from, to] = await pads();
    if (!(await this.inView(from, to))) {
      await this.fit();
      [from, to] = await pads();
    }
    await this.drag(from, to);
    expect(await this.findWire(a, b), `a wire from ${a} to ${b}`).not.toBeNull();
  }

  async selectWire(a: string, b: string): Promise<void> {
    const { id } = await this.wireBetween(a, b);
    if (!(await this.inView(await this.wireMid(id)))) await this.fit();
    // The surface may still be finding its size when a plan has only now been opened: look where the wire is, then click.
    await expect(async () => {
      await this.clickAt(await this.wireMid(id));
      await expect(this.answers.getByRole('article', { name: /^Selected wire/ })).toBeVisible({ timeout: 2_000 });
    }).toPass();
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

function plain(text: string | null | undefined): string {
  return (text ?? '').replace(/\s+/g, ' ').trim();
}
