import { expect } from '@playwright/test';
import { App } from './app.ts';
import { barriers } from './axe.ts';
import { test } from './standing.ts';

test('the rule book opens from the menu, is searched, read and left again; a finding leads to its page', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  await page.getByRole('button', { name: 'Plans and files' }).click();
  await page.getByRole('button', { name: 'Rule book …' }).click();
  const book = page.getByRole('main', { name: 'Rule book' });
  await book.getByRole('searchbox', { name: 'Search' }).fill('fuse far tap');
  await expect(book.getByRole('status')).toContainText('rules speak of that');
  await book.getByRole('searchbox', { name: 'Search' }).fill('');
  // List and page scroll, and nothing round them.
  const beyond = () => page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
  expect(await beyond()).toBeLessThanOrEqual(0);
  await book.getByRole('searchbox', { name: 'Search' }).fill('fuse far tap');
  await book.getByRole('button', { name: /Fuse too far from the tap/ }).click();
  await expect(book.getByRole('img')).toHaveCount(2);
  await expect(book.getByRole('img').first()).toHaveAttribute('alt', /0\.80 m/);
  await expect(book.getByText('150 and 450 mm')).toBeVisible();
  expect(await barriers(page, 'book')).toEqual([]);
  await book.getByRole('button', { name: '‹ Back to the plan' }).click();
  await expect(app.outline).toBeVisible();

  await app.answers.getByRole('button', { name: 'Fuse at the far end' }).click();
  const card = app.answers.getByRole('article', { name: /Fuse too far from the tap/ });
  await card.getByRole('button', { name: 'Why?' }).click();
  await card.getByRole('button', { name: /rule book/ }).click();
  await expect(book.getByRole('heading', { name: /Fuse too far from the tap/ })).toBeVisible();
});
