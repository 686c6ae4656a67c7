import { expect } from '@playwright/test';
import { App } from './app.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

test('a wire drawn in wiring B and one drawn in A have different numbers, and the comparison shows both', async ({ page }) => {
  test.slow();
  const app = new App(page);
  const switchOf = page.getByRole('button', { name: /^Wiring [A-Z]: other wirings/ });
  const number = app.answers.getByRole('textbox', { name: 'Wire number' });
  await app.openPlan(smallPlan('Numbers of two'));
  await app.click(page.getByRole('button', { name: 'Plans and files' }));
  await app.click(page.getByRole('button', { name: 'Try another wiring' }));
  await expect(switchOf).toHaveText('Wiring B');
  await app.closeToast();
  await app.wire('Resistor.2', 'Converter.out');
  await app.settled();
  await expect(number).toHaveValue('4');
  await app.saved();

  await app.click(switchOf);
  await app.click(page.getByRole('button', { name: /^Open A/ }));
  await expect(switchOf).toHaveText('Wiring A');
  await app.settled();
  await app.wire('Resistor.1', 'Converter.out');
  await app.settled();
  await expect(number).toHaveValue('5');
  // The other wiring's number is refused by hand too.
  await number.fill('4');
  await number.press('Enter');
  await expect(app.answers.getByText('Number 4 was given to another wire, here or in another wiring of this plan')).toBeVisible();
  await page.keyboard.press('Escape');
  await app.saved();

  await app.click(switchOf);
  await app.click(page.getByRole('button', { name: 'Compare A with B …' }));
  const view = page.getByRole('main', { name: 'Two wirings compared' });
  await expect(view.getByText(/^W5\b/).first()).toBeVisible({ timeout: 20_000 });
  await expect(view.getByText(/^W4\b/).first()).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(view).toHaveCount(0);
});
