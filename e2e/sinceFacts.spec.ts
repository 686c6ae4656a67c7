import { expect } from '@playwright/test';
import { App } from './app.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

test('what changed since a revision tells the facts of the vehicle and the limits, on screen and on the sheet; a note on what was found is printed, and undone', async ({
  page,
}) => {
  const app = new App(page);
  await app.openPlan(smallPlan());
  await page.getByRole('navigation', { name: 'Job line' }).getByRole('button', { name: /^Draw/ }).click();
  const fold = page.locator('.revisions-fold');
  await fold.locator('summary').click();
  await fold.getByRole('button', { name: 'Make a revision' }).click();
  await fold.getByRole('button', { name: 'Show what changed since' }).click();
  await expect(page.locator('.since-chip')).toContainText('0 changed');

  await app.openTab('Vehicle');
  const battery = app.answers.getByRole('textbox', { name: 'Battery', exact: true });
  await battery.fill('45');
  await battery.press('Enter');
  await app.answers.getByText('Limits, where practice differs').click();
  const limit = app.answers.getByRole('textbox', { name: 'Lost on feed and return, the most' });
  await limit.fill('4.5 %');
  await limit.press('Enter');
  await app.settled();
  await expect(page.locator('.since-chip')).toContainText('2 facts or limits changed');

  await page.getByRole('navigation', { name: 'Job line' }).getByRole('button', { name: /^Draw/ }).click();
  if ((await fold.getAttribute('open')) === null) await fold.locator('summary').click();
  const changes = page.getByRole('region', { name: 'Changed since revision 1' });
  await expect(changes).toContainText('Changed Battery capacity: 90 Ah → 45 Ah');
  await expect(changes).toContainText(/Changed Limit: Lost on feed and return, the most: [\d.]+ % \(default\) → 4.5 %/);

  // As built: typed on the card of a part.
  await app.selectPart('Converter');
  const note = app.card.getByLabel('As-built note');
  await note.fill('Sits upside down behind the tray');
  await note.blur();
  await app.settled();
  expect((await app.part('Converter')).note).toBe('Sits upside down behind the tray');

  await page.getByRole('button', { name: 'Wiring sheet' }).click();
  const sheet = page.frameLocator('iframe[title="Wiring sheet as it will print"]');
  await expect(sheet.getByRole('table', { name: 'Changes' })).toContainText(/Battery capacity\s*90.Ah → 45.Ah/);
  await page.getByLabel('Shows').selectOption('');
  await expect(sheet.getByRole('table', { name: 'Parts list' })).toContainText('Sits upside down behind the tray');
  await page.getByRole('button', { name: 'Back to the plan' }).click();
  await app.undoButton.click();
  await app.selectPart('Converter');
  await expect(app.card.getByLabel('As-built note')).toHaveValue('');
});
