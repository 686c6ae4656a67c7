import { expect, type Page } from '@playwright/test';
import { App } from './app.ts';
import { barriers } from './axe.ts';
import { test } from './standing.ts';

/** Opens the job, unfolds revisions and gives them back. */
async function revisions(page: Page) {
  await page.getByRole('navigation', { name: 'Job line' }).getByRole('button', { name: /^Draw/ }).click();
  const fold = page.locator('.revisions-fold');
  if ((await fold.getAttribute('open')) === null) await fold.locator('summary').click();
  await expect(fold.getByRole('button', { name: 'Make a revision' })).toBeVisible();
  return fold;
}

test('a revision is made, and drawing, list and sheet show only what changed since', async ({ page }) => {
  test.slow();
  const app = new App(page);
  await app.openDemo();
  const fold = await revisions(page);
  await fold.getByLabel('What this revision is about').fill('As it went into the van');
  await fold.getByRole('button', { name: 'Make a revision' }).click();
  await expect(fold.getByRole('listitem')).toHaveCount(1);
  await expect(fold.getByRole('listitem')).toContainText(/Revision 1, \d{4}-\d{2}-\d{2}: As it went into the van/);
  const revised = await app.plan();
  const { id } = await app.wireBetween('Supply fuse.2', 'Hold relay.30');
  const number = revised.wires[id]?.number;
  expect(number, 'numbers are fixed').toEqual(expect.any(Number));

  // Nothing yet, then a wire goes: it and nothing else is told.
  await fold.getByRole('button', { name: 'Show what changed since' }).click();
  const chip = page.locator('.since-chip');
  await expect(chip).toContainText('0 new');
  await app.selectWire('Supply fuse.2', 'Hold relay.30');
  await app.card.getByRole('button', { name: 'Remove this wire' }).click();
  await app.settled();
  await expect(chip).toContainText('1 taken out');
  await app.wire('Supply fuse.2', 'Hold relay.30');
  await app.settled();
  await expect(chip).toContainText('1 new');
  const again = await app.wireBetween('Supply fuse.2', 'Hold relay.30');
  await revisions(page);
  const changes = page.getByRole('region', { name: 'Changed since revision 1' });
  await expect(changes).toContainText(`Taken out W${number}: `);
  await expect(changes).not.toContainText(`New W${number}: `);
  expect(await barriers(page, 'revisions', { within: ['.job', '.since-chip'] })).toEqual([]);

  // The sheet begins with what the drawing shows.
  await page.getByRole('button', { name: 'Wiring sheet' }).click();
  await expect(page.getByLabel('Shows')).toHaveValue('1');
  const sheet = page.frameLocator('iframe[title="Wiring sheet as it will print"]');
  await expect(sheet.getByRole('table', { name: 'Title block' })).toContainText('only what changed since revision 1');
  const listed = await sheet.getByRole('table', { name: 'Wire list' }).locator('tbody tr').allInnerTexts();
  // The new wire, and those whose automatic values came out otherwise round it.
  expect(listed.filter((row) => /^W\d+\s+new\b/.test(row))).toHaveLength(1);
  expect(listed.filter((row) => !/^W\d+\s+(new|changed)\b/.test(row))).toEqual([]);
  await page.getByLabel('Shows').selectOption('');
  await expect(sheet.getByRole('table', { name: 'Title block' })).toContainText('the whole build');
  expect(await sheet.getByRole('table', { name: 'Wire list' }).locator('tbody tr').count()).toBeGreaterThan(10);
  await page.getByRole('button', { name: 'Back to the plan' }).click();
  expect(again.id).not.toBe(id);

  // Undo leads back over the revision, and the drawing shows everything again.
  await page.locator('.since-chip').getByRole('button', { name: 'Show everything' }).click();
  await expect(page.locator('.since-chip')).toHaveCount(0);
});
