import { expect } from '@playwright/test';
import { App } from './app.ts';
import { barriers } from './axe.ts';
import { test } from './standing.ts';

test('"What is this wire?": a look first, then readings, then what the lead most likely is', async ({ page }) => {
  const app = new App(page);
  await app.openStart();
  await page.getByRole('button', { name: 'What is this wire?' }).click();
  const guide = page.getByRole('main', { name: 'What is this wire?' });

  // A yellow cover ends it: nothing to measure with is offered.
  await guide.getByLabel(/Yellow cover/).check();
  await expect(guide.getByRole('alert')).toContainText('Do not measure');
  await expect(guide.getByRole('heading', { name: 'What the meter reads' })).toHaveCount(0);
  await guide.getByLabel(/Yellow cover/).uncheck();
  await guide.getByLabel('None of these').check();

  // An accessory line: live with the key, dead while the starter turns and after key-off (workshop table of switch contacts).
  const says = guide.getByRole('status', { name: 'What it may be' });
  const read = async (step: string, volts: string) => guide.getByLabel(step, { exact: true }).fill(volts);
  await read('Key out, doors shut, vehicle asleep', '0');
  await read('Key in Accessory', '12,1');
  await read('Ignition on, engine still', '12.2');
  await read('While the starter turns', '0');
  await read('Engine running', '14.1');
  await expect(says).toContainText('5 of 6 readings');
  await read('Key just off, doors shut', '0');
  await expect(says).toContainText('It reads like');
  await expect(says).toContainText('Accessory, terminal 75');
  await read('Engine running', 'x');
  await expect(guide.getByRole('alert')).toContainText('in volts');

  expect(await barriers(page, 'guide')).toEqual([]);
  await guide.getByRole('button', { name: '‹ Back' }).click();
  await expect(page.getByRole('button', { name: 'Plan mine' })).toBeVisible();
});
