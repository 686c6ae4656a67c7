import { expect, test } from '@playwright/test';
import { App } from './app.ts';

test('the job line tells what is open, ticks wires as fitted, and one undo takes a tick back', async ({ page }) => {
  const app = new App(page);
  await app.openDemo();
  const line = page.getByRole('navigation', { name: 'Job line' });
  await expect(line.getByRole('button')).toHaveCount(7);
  await expect(line.getByRole('button', { name: 'Draw' })).toHaveAttribute('aria-current', 'step');

  await line.getByRole('button', { name: /^Wire/ }).click();
  const job = page.getByRole('region', { name: 'Job: Wire' });
  const box = job.getByRole('checkbox').first();
  const open = async () => Number(/\d+/.exec((await line.getByRole('button', { name: /^Wire/ }).textContent()) ?? '')?.[0]);
  const before = await open();
  await box.check();
  await expect(box).toBeChecked();
  await expect.poll(open).toBe(before - 1);
  await app.undoButton.click();
  await expect.poll(open).toBe(before);

  await line.getByRole('button', { name: /^Software/ }).click();
  await expect(page.getByRole('region', { name: 'Job: Software' }).getByRole('checkbox').first()).toBeVisible();
});
