import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** What is looked for (all but some rules, or only some), and in which parts of the page. */
export interface Narrowed {
  readonly only?: readonly string[];
  readonly but?: readonly string[];
  /** Selectors; absent = the whole page. */
  readonly within?: readonly string[] | undefined;
}

/** What would keep somebody out of the page as it stands, one line each. */
export async function barriers(page: Page, where: string, { only, but, within = [] }: Narrowed = {}): Promise<string[]> {
  // There is no frame to look into, and without that it takes a third of the time.
  const axe = new AxeBuilder({ page }).setLegacyMode();
  if (only) axe.withRules([...only]);
  if (but) axe.disableRules([...but]);
  for (const part of within) axe.include(part);
  const { violations } = await axe.analyze();
  return violations.map((v) => `${where}: ${v.id}, ${v.help}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`);
}

/**
 * The same in every look: all that is to be found in light colours, and what is a matter of colour in the others.
 * @param within parts of the page that are others than at the last look; absent = all of it
 */
export async function barriersInAllLooks(page: Page, where: string, within?: readonly string[]): Promise<string[]> {
  const found = await barriers(page, where, { within });
  for (const theme of ['dark', 'contrast', 'contrast-dark', 'light']) {
    // Colours pass over into the new ones: they are looked at once they are there.
    await page.evaluate(async (t) => {
      document.documentElement.dataset.theme = t;
      for (let frames = 0; frames < 2; frames++) await new Promise(requestAnimationFrame);
    }, theme);
    if (theme !== 'light') found.push(...(await barriers(page, `${where}, ${theme}`, { only: ['color-contrast'], within })));
  }
  return found;
}
