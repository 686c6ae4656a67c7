import { expect, test } from '@playwright/test';
import { App } from './app.ts';

test.use({ serviceWorkers: 'allow' });

test('the page opens without network once it has been there, and older builds give up their room', async ({ page, context }) => {
  await page.goto('./icon.svg');
  for (const build of ['first', 'second']) await page.evaluate((name) => caches.open(`dashloom-build-${name}`), build);
  await page.goto('./');
  // Only once the worker has fetched all of it is it kept.
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller?.state), { timeout: 20_000 }).toBe('activated');
  const worker = await (await page.request.get('./offline.js')).text();
  const number = /"number":"(\w+)"/.exec(worker)?.[1];
  // The build before stays for pages that are still open; what is older goes.
  expect(await page.evaluate(() => caches.keys())).toEqual(['dashloom-build-second', `dashloom-build-${number}`]);

  await context.setOffline(true);
  await page.reload();
  const app = new App(page);
  await app.openDemo();
  await expect(app.headline).toContainText('looked at');
  await app.click(page.getByRole('button', { name: 'Wiring sheet' }));
  await expect(page.frameLocator('iframe').getByRole('heading', { level: 1 })).toBeVisible();
});
