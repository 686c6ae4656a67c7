import { expect, test as fresh, type Locator } from '@playwright/test';
import { App } from './app.ts';
import { test } from './standing.ts';

const spoken = (app: App): Locator => app.page.locator('p.hidden-text[aria-live=polite]');

async function withMistake(app: App, name: string): Promise<void> {
  await app.click(app.answers.getByRole('button', { name, exact: true }));
  await app.settled();
}

/** Holds back what the worker finds in its second look, from `hold` until `release`; keeps a note of every list of findings that was shown. */
class SecondLook {
  constructor(private readonly app: App) {}

  async fit(): Promise<void> {
    await this.app.page.addInitScript(() => {
      const held: (() => void)[] = [];
      const gate = { shut: false, shown: [] as string[][], open: () => {} };
      gate.open = () => {
        gate.shut = false;
        for (const send of held.splice(0)) send();
      };
      window.Worker = class extends Worker {
        constructor(url: string | URL, options?: WorkerOptions) {
          super(url, options);
          // First of all listeners: what it stops reaches none of the page's.
          this.addEventListener('message', (event) => {
            if (!gate.shut || !('look' in event.data)) return;
            event.stopImmediatePropagation();
            held.push(() => this.dispatchEvent(new MessageEvent('message', { data: event.data })));
          });
        }
      };
      Object.assign(window, { gate });
    });
  }

  async hold(): Promise<void> {
    await this.app.page.evaluate(() => {
      const { gate } = window as unknown as { gate: { shut: boolean; shown: string[][] } };
      gate.shut = true;
      gate.shown = [];
      const look = () => {
        const cards = [...document.querySelectorAll('article[aria-label]')].map((c) => c.getAttribute('aria-label') ?? '');
        gate.shown.push(cards.filter((name) => /^(Hazard|Fault|Advice): /.test(name)));
      };
      look();
      new MutationObserver(look).observe(document.body, { subtree: true, childList: true, attributes: true, attributeFilter: ['aria-label'] });
    });
  }

  async release(): Promise<void> {
    await this.app.page.evaluate(() => (window as unknown as { gate: { open(): void } }).gate.open());
  }

  /** Findings that were shown, then not, then again. */
  async cameBack(): Promise<string[]> {
    const shown = await this.app.page.evaluate(() => (window as unknown as { gate: { shown: string[][] } }).gate.shown);
    return [...new Set(shown.flat())].filter((name) =>
      /x-x/.test(
        shown
          .map((list) => (list.includes(name) ? 'x' : '-'))
          .join('')
          .replace(/-+/g, '-'),
      ),
    );
  }
}

test.describe('the list of findings', () => {
  test('three cards first, hazards before faults, all when asked; advice is folded', async ({ page }) => {
    const app = new App(page);
    await app.openDemo();
    for (const name of ['Fuse at the far end', 'Thin feed', 'Button on a console pin', 'Sense resistor too small'])
      await app.click(app.answers.getByRole('button', { name, exact: true }));
    await app.settled();
    const strong = app.answers.getByRole('article', { name: /^(Hazard|Fault): / });
    await expect(strong).toHaveCount(3);
    await expect(app.findings('Advice').first()).toBeHidden();
    await app.click(app.answers.getByRole('button', { name: /^Show all \d+$/ }));
    expect(await strong.count()).toBeGreaterThan(3);
    const levels = await strong.evaluateAll((cards) => cards.map((c) => c.getAttribute('aria-label')?.split(':')[0]));
    expect(levels).toEqual([...levels].sort((a, b) => Number(b === 'Hazard') - Number(a === 'Hazard')));
    await app.click(app.answers.getByRole('button', { name: 'Show the first 3 only' }));
    await expect(strong).toHaveCount(3);
  });

  test('setting aside asks why, is printed with the reason, and can be taken back', async ({ page }) => {
    const app = new App(page);
    await app.openDemo();
    await withMistake(app, 'Fuse at the far end');
    const card = app.findings('Hazard').first();
    await app.click(card.getByRole('button', { name: 'Set aside …' }));
    await app.click(card.getByRole('button', { name: 'Set aside', exact: true }));
    await expect(card.getByRole('alert')).toContainText('Say why');
    await app.type(card.getByRole('textbox'), 'Armoured conduit to the fuse');
    await app.click(card.getByRole('button', { name: 'Set aside', exact: true }));
    await expect(app.findings('Hazard')).toHaveCount(0);
    await app.click(app.answers.getByText('Set aside (1)'));
    await expect(app.answers).toContainText('“Armoured conduit to the fuse”');
    await app.click(page.getByRole('button', { name: 'Wiring sheet' }));
    await expect(page.frameLocator('iframe').locator('body')).toContainText('Armoured conduit to the fuse');
    await app.click(page.getByRole('button', { name: 'Back to the plan' }));
    await app.click(app.answers.getByText('Set aside (1)'));
    await app.click(app.answers.getByRole('button', { name: 'Take it back' }));
    await expect(app.findings('Hazard')).toHaveCount(1);
  });

  test('“show me” by keyboard turns key and supply to where it is worst, and chooses the place', async ({ page }) => {
    const app = new App(page);
    await app.openDemo();
    await withMistake(app, 'Thin feed');
    const card = app.answers
      .getByRole('article', { name: /^(Hazard|Fault): / })
      .filter({ hasText: /Worst in / })
      .first();
    const worst = (await card.getByText(/^Worst in /).textContent()) ?? '';
    const [, key, band] = /^Worst in (.+), (low|typical|high)\.$/.exec(worst) ?? [];
    await card.getByRole('button', { name: 'Show me' }).focus();
    await app.press('Enter');
    await expect(page.locator('.supply label:has(:checked)')).toContainText(band ?? 'no band');
    await expect(page.getByRole('group', { name: /^Key/ }).locator('input:checked')).toHaveAttribute('value', key ?? '');
    await expect(app.answers.getByRole('tab', { name: 'Selected' })).toBeVisible();
    await expect(card, 'the card stays in view').toBeVisible();
  });

  fresh('what takes longer follows after the first findings: “still looking” until then, and nothing goes and comes back', async ({ page }) => {
    const app = new App(page);
    const second = new SecondLook(app);
    await second.fit();
    await app.openDemo();
    await second.hold();
    // A drop is judged at the worst corner, which takes solves of its own; the size of a wire takes none.
    const drop = app.findings('Fault').filter({ hasText: 'Too much voltage lost on the feed' });
    await app.click(app.answers.getByRole('button', { name: 'Thin feed', exact: true }));
    await expect(app.headline).toContainText('still looking …');
    await expect(app.headline.getByRole('heading')).toContainText('so far');
    await expect(app.answers).toContainText('More may be found.');
    await app.click(app.answers.getByRole('button', { name: /^Show all \d+$/ }));
    await expect(app.findings('Hazard'), 'the first findings do not wait').not.toHaveCount(0);
    await expect(drop).toHaveCount(0);
    await second.release();
    await app.settled();
    await expect(drop).toHaveCount(1);
    await expect(app.headline).not.toContainText(/still looking|so far/);
    await expect(app.answers).not.toContainText('More may be found.');
    expect(await second.cameBack()).toEqual([]);

    // A change that has nothing to do with it: the drop stays while it is looked at anew.
    await second.hold();
    await app.click(app.answers.getByRole('button', { name: 'Button on a console pin', exact: true }));
    await expect(app.headline).toContainText('still looking …');
    await expect(drop).toHaveCount(1);
    await second.release();
    await app.settled();
    await expect(drop).toHaveCount(1);
    expect(await second.cameBack()).toEqual([]);
  });

  test('a drag brings nothing up; at the drop the new finding is there and is said', async ({ page }) => {
    const app = new App(page);
    await app.openDemo();
    // Lengths of its wires are typed: from there they no longer reach.
    const tooShort = 'Length that cannot be right';
    // What arrives late (the key cycle's line) may still push the drawing about: it must have come to rest.
    let from = await app.middle('Supply fuse');
    const stands = async (): Promise<boolean> => {
      const last = from;
      from = await app.middle('Supply fuse');
      return last.x === from.x && last.y === from.y;
    };
    await expect.poll(stands, { intervals: [1000] }).toBe(true);
    const to = await app.inZone('Under the seat', 60, 300);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 8 });
    // Long enough for the plan in the hand to be analysed.
    await page.waitForTimeout(1500);
    await expect(app.findings().filter({ hasText: tooShort })).toHaveCount(0);
    await expect(spoken(app)).toBeEmpty();
    await page.mouse.up();
    await app.openTab('Findings');
    await expect(app.findings().filter({ hasText: tooShort })).toHaveCount(1);
    await expect(spoken(app)).toHaveText(`New advice: ${tooShort}.`);
    await app.undo();
    await expect(spoken(app)).toHaveText(`Gone: ${tooShort}.`);
  });
});

test.describe('a push button', () => {
  const says = (app: App): Locator => app.card.getByRole('status');

  test('pressed on its card: its pin reads low, in words and volts, in every key position', async ({ page }) => {
    const app = new App(page);
    await app.openDemo();
    const before = await app.plan();
    await app.selectPart('Button: next stop');
    await expect(says(app)).toHaveText(/^GPIO 5 reads high: 3\.30\sV \(not pressed\)$/);
    await app.click(app.card.getByRole('button', { name: 'Press the button' }));
    await expect(says(app)).toHaveText(/^GPIO 5 reads low: 0\.0\d\sV \(pressed\)$/);
    for (const key of ['Ignition', 'Start', 'Held'] as const) {
      await app.turnKey(key);
      await expect(says(app), key).toHaveText(/^GPIO 5 reads low: 0\.0\d\sV \(pressed\)$/);
    }
    await app.turnKey('Parked');
    await expect(says(app)).toContainText('GPIO 5 is not read in Parked: the computer has no power.');
    await app.turnKey('Running');
    await app.openTab('Pins');
    await expect(app.answers.getByRole('row', { name: /^29 5 / })).toContainText('low');
    await expect(app.answers.getByRole('row', { name: /^31 6 / })).toContainText('high');
    // Held down as a thing of the screen: the plan knows nothing of it.
    expect(await app.plan()).toEqual(before);
    await expect(app.undoButton).toHaveAccessibleName('Nothing to undo');
    await app.click(page.getByRole('button', { name: 'Let go', exact: true }));
    await expect(app.answers.getByRole('row', { name: /^29 5 / })).toContainText('high');
  });

  test('chosen on the drawing: P presses and lets go, so does Escape, so does a second click; a removed button comes up', async ({ page }) => {
    const app = new App(page);
    await app.openDemo();
    await app.selectPart('Button: next stop');
    await app.press('p');
    await expect(says(app)).toContainText('(pressed)');
    await app.press('p');
    await expect(says(app)).toContainText('(not pressed)');
    await app.press('p');
    await expect(page.locator('.held-chip')).toBeVisible();
    await app.press('Escape');
    await expect(page.locator('.held-chip')).toHaveCount(0);
    await expect(says(app)).toContainText('(not pressed)');

    await app.selectPart('Button: lamp');
    await app.click(app.card.getByRole('button', { name: 'Press the button' }));
    await expect(says(app)).toContainText('GPIO 6 reads low');
    await app.click(app.card.getByRole('button', { name: 'Let the button go' }));
    await expect(says(app)).toContainText('GPIO 6 reads high');
    await app.click(app.card.getByRole('button', { name: 'Press the button' }));
    await app.click(app.card.getByRole('button', { name: 'Remove this part and its wires' }));
    await expect(page.locator('.held-chip')).toHaveCount(0);
  });
});
