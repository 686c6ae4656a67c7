import { expect, type Page } from '@playwright/test';
import { App } from './app.ts';
import { barriers, barriersInAllLooks } from './axe.ts';
import { test } from './standing.ts';

/** Nothing to scroll sideways, nothing out of reach. */
const WITHIN = { px: 0, beyond: [] };
const TABS = ['Findings', 'Job', 'Supply', 'Pins', 'Vehicle'] as const;

/** The frame runs no scripts, axe among them: its document is looked at in a page of its own, and the rest without it. */
async function barriersOfSheet(page: Page): Promise<string[]> {
  const frame = page.locator('iframe');
  const html = (await frame.getAttribute('srcdoc')) ?? '';
  await frame.evaluate((el) => el.remove());
  const alone = await page.context().newPage();
  await alone.setContent(html);
  // Printed in black on white: its hundreds of table cells need no look at their colours.
  const found = [...(await barriers(page, 'round the wiring sheet')), ...(await barriers(alone, 'wiring sheet', { but: ['color-contrast'] }))];
  await alone.close();
  return found;
}

test('the way in has no barrier in any colours: start, lead guide, questions, and what the questions answer to', async ({ page }) => {
  test.slow();
  const app = new App(page);
  const found: string[] = [];
  await app.openStart();
  found.push(...(await barriersInAllLooks(page, 'start')));
  await app.click(page.getByRole('button', { name: 'What is this wire?' }));
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  found.push(...(await barriersInAllLooks(page, 'lead guide')));
  await app.click(page.getByRole('button', { name: '‹ Back' }));
  await app.atStart();
  await app.click(page.getByRole('button', { name: 'Plan mine' }));
  await expect(page.getByRole('heading', { name: 'Plan mine' })).toBeVisible();
  found.push(...(await barriersInAllLooks(page, 'questions')));
  await app.click(page.getByRole('button', { name: 'Make the plan' }));
  await app.settled();
  found.push(...(await barriers(page, 'new plan')));
  expect(found).toEqual([]);
});

test('the open plan has no barrier in any colours: every tab, every card, the menus, the wiring sheet', async ({ page }) => {
  // Many screens, each in four looks.
  test.setTimeout(300_000);
  const app = new App(page);
  const found: string[] = [];
  await app.openDemo();
  found.push(...(await barriersInAllLooks(page, 'plan')));
  const answers = ['.ledger'];
  await expect(page.locator('.ledger')).toHaveCount(1);
  for (const tab of TABS.slice(1)) {
    await app.click(app.answers.getByRole('tab', { name: tab, exact: true }));
    found.push(...(await barriersInAllLooks(page, tab, answers)));
  }
  await app.openTab('Findings');
  await app.click(app.answers.getByRole('button', { name: 'Fuse at the far end' }));
  await expect(app.findings().first()).toBeVisible();
  found.push(...(await barriersInAllLooks(page, 'findings with cards', answers)));
  await app.selectWire('Supply fuse.1', 'feed-30.out');
  found.push(...(await barriersInAllLooks(page, 'wire card', answers)));
  await app.selectPart('Hold relay');
  found.push(...(await barriersInAllLooks(page, 'part card', answers)));
  await app.click(page.getByRole('button', { name: 'How things are shown' }));
  const open = ':popover-open';
  await expect(page.locator(open)).toHaveCount(1);
  found.push(...(await barriers(page, 'plan with its view menu')));
  found.push(...(await barriersInAllLooks(page, 'view menu', [open])));
  await app.press('Escape');
  await app.click(page.getByRole('button', { name: 'Wiring sheet' }));
  await expect(page.frameLocator('iframe').getByRole('heading', { level: 1 })).toBeVisible();
  found.push(...(await barriersOfSheet(page)));
  expect(found).toEqual([]);
});

test('whatever takes the focus shows it', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  // How the focused control, its label and what holds it look now; and again once the focus has moved on.
  await page.evaluate(() => {
    const looks = (of: readonly Element[]): string =>
      of
        .map((e) => [getComputedStyle(e), getComputedStyle(e, '::after')].map((s) => [s.outline, s.boxShadow, s.borderColor, s.backgroundColor].join()).join())
        .join();
    let last: { name: string; of: Element[]; focused: string } | null = null;
    Reflect.set(window, '__step', () => {
      const left = last && { name: last.name, shows: last.focused !== looks(last.of) };
      const el = document.activeElement;
      last = null;
      if (el instanceof HTMLElement && el !== document.body) {
        // A hidden radio shows its focus on its label or beside itself.
        const of = [el, el.closest('label'), el.parentElement, ...(el.closest('label')?.querySelectorAll('span') ?? [])].filter((e) => e !== null);
        last = { name: `${el.tagName} ${el.getAttribute('aria-label') ?? el.textContent?.trim().slice(0, 30)}`, of, focused: looks(of) };
      }
      return left;
    });
  });
  const seen = new Set<string>();
  const unseen: string[] = [];
  for (let i = 0; i < 50; i++) {
    await app.press('Tab');
    const left = await page.evaluate(() => (Reflect.get(window, '__step') as () => { name: string; shows: boolean } | null)());
    if (!left) continue;
    seen.add(left.name);
    if (!left.shows) unseen.push(left.name);
  }
  expect(unseen).toEqual([]);
  expect(seen.size).toBeGreaterThan(20);
});

test('forced colours keep the findings apart by word and shape', async ({ page }) => {
  await page.emulateMedia({ forcedColors: 'active' });
  expect(await page.evaluate(() => matchMedia('(forced-colors: active)').matches)).toBe(true);
  const app = new App(page);
  await app.openDemo();
  await app.click(app.answers.getByRole('button', { name: 'Fuse at the far end' }));
  const card = app.findings().first();
  await expect(card.locator('.level-word')).toBeVisible();
  await expect(card.locator('svg').first()).toBeVisible();

  // Drawings of the rule book are black on white: on the device's own black nothing of them would be seen.
  await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' });
  await card.getByRole('button', { name: 'Why?' }).click();
  await card.getByRole('button', { name: /rule book/ }).click();
  await expect(page.locator('.book-rule figure').first()).toHaveCSS('background-color', 'rgb(255, 255, 255)');
  await page.emulateMedia({ forcedColors: null, colorScheme: null });
});

test('text at twice its size is neither cut off sideways nor out of reach, in windows 1280, 640 and 360 px wide', async ({ page }) => {
  const app = new App(page);
  const large = await page.addStyleTag({ content: 'html { font-size: 32px }' });
  const inWindows = async (what: string): Promise<void> => {
    for (const width of [640, 360, 1280]) {
      await page.setViewportSize({ width, height: 800 });
      // It is laid out anew with the next frame.
      await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
      await expect.poll(() => sideways(page), `${what}, ${width} px wide`).toEqual(WITHIN);
    }
  };
  await app.openStart();
  await inWindows('start');
  await page.getByRole('button', { name: 'Plan mine' }).click();
  await inWindows('questions');
  await page.getByRole('button', { name: '‹ Back' }).click();
  await page.getByRole('button', { name: 'Try the demo' }).click();
  await expect(page.getByRole('button', { name: /No hazard, no fault found/ })).toBeVisible({ timeout: 20_000 });
  await inWindows('plan');

  // On the smallest phone what slides up has the whole screen, and the guide and the answers fit its width.
  await page.setViewportSize({ width: 360, height: 740 });
  await page.getByRole('button', { name: 'Job', exact: true }).click();
  await page.getByRole('button', { name: 'Guide me' }).click();
  const guide = page.getByRole('dialog', { name: 'Guide' });
  await expect(guide.locator('.guided-step')).toBeVisible({ timeout: 20_000 });
  expect((await guide.boundingBox())?.height).toBe(740);
  const wider = (of: string) => guide.locator(of).evaluate((el) => el.scrollWidth - el.clientWidth);
  expect(await wider('.drawer-scroll')).toBe(0);
  await guide.getByRole('button', { name: 'Close guide' }).click();
  await large.evaluate((style) => (style as Element).remove());
});

test('on a phone laid on its side all of the menu of looks can be reached, and no word is smaller than 12 px', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  await page.setViewportSize({ width: 740, height: 360 });
  await expect(page.getByRole('region', { name: 'Key and answers' })).toBeVisible();
  expect(await tooSmall(page)).toEqual([]);
  await page.getByRole('button', { name: 'How things are shown' }).click();
  const last = page.getByText('Strong, dark', { exact: true });
  await last.scrollIntoViewIfNeeded();
  await expect(last).toBeInViewport({ ratio: 1 });
  await page.keyboard.press('Escape');
  await page.setViewportSize({ width: 360, height: 740 });
  await expect.poll(() => tooSmall(page)).toEqual([]);
});

test.describe('on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });

  test('the key is in reach, the answers open, nothing scrolls sideways', async ({ page }) => {
    const app = new App(page);
    const found: string[] = [];
    await app.openStart();
    expect(await sideways(page), 'start').toEqual(WITHIN);
    found.push(...(await barriers(page, 'start')));
    await page.getByRole('button', { name: 'Try the demo' }).tap();
    const answers = page.getByRole('button', { name: /No hazard, no fault found/ });
    await expect(answers).toBeVisible({ timeout: 20_000 });
    expect(await sideways(page), 'plan').toEqual(WITHIN);
    found.push(...(await barriers(page, 'plan')));

    const start = page.getByRole('group', { name: /^Key/ }).getByText('Start', { exact: true });
    const box = await start.boundingBox();
    expect(box && box.y > 422 && box.y + box.height < 844, 'the key lies in the lower half').toBe(true);
    await start.tap();
    await expect(page.getByRole('radio', { name: /^Start/ })).toBeChecked();

    await answers.tap();
    const sheet = page.getByRole('dialog', { name: 'Answers' });
    await expect(sheet).toBeVisible();
    await sheet.getByRole('tab', { name: 'Supply' }).tap();
    expect(await sideways(page), 'answers').toEqual(WITHIN);
    found.push(...(await barriers(page, 'answers')));
    await sheet.getByRole('button', { name: 'Close answers' }).tap();
    await expect(sheet).toHaveCount(0);

    await page.getByRole('button', { name: 'Wiring sheet' }).tap();
    await expect(page.getByRole('heading', { name: 'Wiring sheet', level: 1 })).toBeVisible();
    expect(await sideways(page), 'wiring sheet').toEqual(WITHIN);
    expect(found).toEqual([]);
  });

  test('a finger chooses a wire, reads its load, and wires by choosing from the list', async ({ page }) => {
    const app = new App(page);
    await app.openStart();
    await page.getByRole('button', { name: 'Try the demo' }).tap();
    await expect(page.getByRole('button', { name: /No hazard, no fault found/ })).toBeVisible({ timeout: 20_000 });
    await app.closeToast();
    await page.getByRole('button', { name: 'Next zone' }).tap();
    await expect(page.getByRole('navigation', { name: 'Zones' })).toContainText('Behind the radio');
    const { id } = await app.wireBetween('Step-down.gnd', 'Radio ground.31');
    const at = await app.wireMid(id);
    await page.touchscreen.tap(at.x, at.y);
    const load = page.getByRole('button', { name: /^W11: [\d.]+\sA$/ });
    await load.tap();
    const sheet = page.getByRole('dialog', { name: 'Answers' });
    await expect(sheet.getByRole('article', { name: /^Selected wire W11/ })).toBeVisible();
    await sheet.getByRole('button', { name: 'Close answers' }).tap();

    const wires = Object.keys((await app.plan()).wires).length;
    const pad = await app.pad('Supply fuse.2');
    await page.touchscreen.tap(pad.x, pad.y);
    const ends = page.getByRole('dialog', { name: /^Wire from Supply fuse/ });
    await ends.getByRole('listitem').first().getByRole('button').tap();
    await expect(ends).toHaveCount(0);
    expect(Object.keys((await app.plan()).wires)).toHaveLength(wires + 1);
  });
});

/** Words on the page that are smaller than 12 px. */
function tooSmall(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('body *')]
      .filter((el) => [...el.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim()))
      .filter((el) => el.checkVisibility({ visibilityProperty: true }) && el.closest('.hidden-text, .outline, .skip, script, style') === null)
      .filter((el) => Number.parseFloat(getComputedStyle(el).fontSize) < 12)
      .map((el) => `${el.className} ${el.textContent}`),
  );
}

/** How far the page can be scrolled sideways, px, and the controls that lie beyond its edges with no way to scroll to them. */
function sideways(page: Page): Promise<{ readonly px: number; readonly beyond: readonly string[] }> {
  return page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    const scrolls = (el: Element | null): boolean =>
      el !== null && ((/auto|scroll/.test(getComputedStyle(el).overflowX) && el.scrollWidth > el.clientWidth) || scrolls(el.parentElement));
    const beyond = [...document.querySelectorAll('button, input:not([hidden]), select, a')].filter((el) => {
      const r = el.getBoundingClientRect();
      const shown = r.width > 1 && r.height > 1 && el.closest('.outline, .hidden-text, .skip') === null;
      return shown && (r.left < -1 || r.right > width + 1) && !scrolls(el);
    });
    return {
      px: Math.max(0, document.documentElement.scrollWidth - width),
      beyond: beyond.map((el) => el.getAttribute('aria-label') ?? el.textContent ?? el.tagName),
    };
  });
}
