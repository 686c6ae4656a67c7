import type { Page } from '@playwright/test';
import axe, { type ElementContext, type RunOptions } from 'axe-core';

/** What is looked for (all but some rules, or only some), and in which parts of the page. */
export interface Narrowed {
  readonly only?: readonly string[];
  readonly but?: readonly string[];
  /** Selectors; absent = the whole page. */
  readonly within?: readonly string[] | undefined;
}

/**
 * What would keep somebody out of the page as it stands, one line each. There is no frame to look into, so the document
 * is asked itself, and what asks stays in it: that takes a third of the time.
 */
export async function barriers(page: Page, where: string, { only, but, within = [] }: Narrowed = {}): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  const options: RunOptions = {
    resultTypes: ['violations'],
    // Style sheets and sounds are fetched for an experimental rule and for sounds: neither is here.
    preload: false,
    ...(only ? { runOnly: { type: 'rule', values: [...only] } } : {}),
    ...(but ? { rules: Object.fromEntries(but.map((rule) => [rule, { enabled: false }])) } : {}),
  };
  const context = within.length > 0 ? { include: within.map((part) => [part]) } : { include: [['html']] };
  const violations = await page.evaluate(
    async ([of, how]) => {
      const found = await (Reflect.get(window, 'axe') as typeof axe).run(of as ElementContext, how as RunOptions);
      if (found.passes.length + found.violations.length + found.incomplete.length === 0) throw new Error(`nothing was looked at in ${JSON.stringify(of)}`);
      return found.violations.map(({ id, help, nodes }) => ({ id, help, at: nodes.map((n) => n.target.join(' ')) }));
    },
    [context, options] as const,
  );
  return violations.map(({ id, help, at }) => `${where}: ${id}, ${help}: ${at.join(' | ')}`);
}

/**
 * The same in every look: all that is to be found in light colours, and what is a matter of colour in the others.
 * @param within parts of the page that are others than at the last look; absent = all of it
 */
export async function barriersInAllLooks(page: Page, where: string, within?: readonly string[]): Promise<string[]> {
  const found = await barriers(page, where, { within });
  // Colours that passed over into the new ones, one element after the other, would have to be waited for.
  const still = await page.addStyleTag({ content: '*, ::before, ::after { transition: none !important }' });
  for (const theme of ['dark', 'contrast', 'contrast-dark', 'light']) {
    await page.evaluate((t) => {
      document.documentElement.dataset.theme = t;
    }, theme);
    if (theme !== 'light') found.push(...(await barriers(page, `${where}, ${theme}`, { only: ['color-contrast'], within })));
  }
  await still.evaluate((style) => (style as Element).remove());
  return found;
}
