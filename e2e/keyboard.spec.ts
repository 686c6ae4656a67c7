import { expect, type Locator, test as own, type Page } from '@playwright/test';
import { App } from './app.ts';
import { demoJoins, rebuiltJoins } from './joins.ts';
import { smallPlan } from './plans.ts';
import { test } from './standing.ts';

/** The same job takes up to 60 pointer actions by mouse. */
const MOST_ACTIONS = 2 * 60;
/** A walk with Tab that takes longer has lost its way. */
const FAR = 40;

/**
 * A person without a pointer. One action is one press of a key or of a combination (each Tab and each arrow counts), or
 * one thing told by typing: the words and the Enter that takes them, as a drag by mouse is press, way and letting go.
 */
class Keys {
  actions = 0;
  constructor(readonly page: Page) {}

  async press(key: string): Promise<void> {
    this.actions++;
    await this.page.keyboard.press(key);
  }

  async tell(words: string): Promise<void> {
    this.actions++;
    await this.page.keyboard.type(words);
    await this.page.keyboard.press('Enter');
  }

  /** Presses Tab until something has the focus. */
  async walkTo(target: Locator): Promise<void> {
    await expect(target).toBeVisible();
    for (let i = 0; i < FAR; i++) {
      if (await target.evaluate((el) => el === document.activeElement)) return;
      await this.press('Tab');
    }
    throw new Error(`not reached by Tab: ${target}`);
  }

  /** Takes a choice of a row of choices by the arrow keys. */
  async choose(group: Locator, label: string): Promise<void> {
    const wanted = group.getByRole('radio', { name: label, exact: true });
    const name = await wanted.getAttribute('name');
    await this.walkTo(group.locator(`input[name="${name}"]:checked`));
    for (let i = 0; i < FAR && !(await wanted.isChecked()); i++) await this.press('ArrowUp');
    await expect(wanted).toBeChecked();
  }
}

own('the main job by keyboard alone: from an empty plan to the printed sheet', async ({ page }, info) => {
  own.setTimeout(240_000);
  // The sheet's frame tells when it is asked to print.
  await page.addInitScript(() => {
    window.print = () => Reflect.set(window.top ?? window, '__printed', true);
  });
  const app = new App(page);
  const keys = new Keys(page);
  await app.openStart();
  await keys.walkTo(page.getByRole('button', { name: 'Plan mine' }));
  await keys.press('Enter');
  const question = (n: number) => page.getByRole('group', { name: new RegExp(`^${n}\\. `) });
  await keys.choose(question(2), 'Under a seat');
  await keys.choose(question(3), 'Under a seat');
  await keys.choose(question(4), 'No');
  await keys.choose(question(4), 'No, it may start again');
  await keys.press('Enter');
  await app.settled();

  // N leads to the shelf's search field; Enter puts what is found first into the zone that stands below it.
  await keys.press('n');
  await expect(app.shelf.getByRole('searchbox', { name: 'Find a part' })).toBeFocused();
  await into(keys, app, 'Behind the dash');
  await keys.tell('fused constant');
  await keys.tell('fused ignition');
  await keys.tell('radio sound input');
  await into(keys, app, 'Under the seat');
  for (const item of [
    'guarded 5',
    'key sensor',
    'display with',
    'button with',
    'button with',
    'master',
    'hold relay switch',
    'computer',
    'usb device',
    'usb sound adapter',
    'audio isolator',
  ])
    await keys.tell(item);
  await keys.press('Escape');
  await keys.press('Escape');

  // J joins: a wire a line. Parts go by their names or by the numbers of the drawing.
  await keys.press('j');
  await expect(page.getByLabel('From which terminal')).toBeFocused();
  for (const [from, to] of JOINS) {
    await keys.tell(`${from} > ${to}`);
    await expect(page.getByRole('dialog', { name: 'Join terminals' }), `${from} to ${to}`).toContainText(/Joined: /);
  }
  await keys.press('Escape');
  await app.settled();
  expect(rebuiltJoins(await app.plan())).toEqual(demoJoins());

  // A leads to the answers: the one fact that is asked for.
  await keys.press('a');
  await keys.walkTo(app.answers.getByRole('tab', { selected: true }));
  const findings = app.answers.getByRole('tab', { name: 'Findings', exact: true });
  for (let i = 0; i < 8 && (await findings.getAttribute('aria-selected')) !== 'true'; i++) await keys.press('ArrowRight');
  await keys.walkTo(
    app
      .findings('Hazard')
      .first()
      .getByRole('button', { name: /alternator clamps/ }),
  );
  await keys.press('Enter');
  // What changes the plan's facts asks first.
  await keys.walkTo(app.answers.getByRole('button', { name: 'Change it' }));
  await keys.press('Enter');
  await app.settled();
  await expect(app.findings('Hazard')).toHaveCount(0);
  await expect(app.findings('Fault')).toHaveCount(0);

  // S opens the wiring sheet.
  await keys.press('Escape');
  await keys.press('s');
  const print = page.getByRole('button', { name: /^Print/ });
  await expect(print).toBeEnabled();
  await keys.walkTo(print);
  await keys.press('Enter');
  await expect.poll(() => page.evaluate(() => Reflect.get(window, '__printed'))).toBe(true);
  info.annotations.push({ type: 'actions', description: String(keys.actions) });
  expect(app.pointerActions).toBe(0);
  expect(keys.actions).toBeLessThanOrEqual(MOST_ACTIONS);
});

/** From the search field to the zone below it, its name typed, and back. */
async function into(keys: Keys, app: App, zone: string): Promise<void> {
  await keys.press('Tab');
  await keys.page.keyboard.type(zone);
  keys.actions++;
  await expect(app.shelf.getByRole('combobox', { name: /Enter puts it in/ }).locator('option:checked')).toHaveText(zone);
  await keys.press('Shift+Tab');
}

/** Beginnings of words, as many as it takes to be told from everything else. */
const JOINS: readonly (readonly [string, string])[] = [
  // The vehicle's leads to the taps, the feed with its hold relay, and the grounds.
  ['batt +', 'const veh'],
  ['batt +', 'ign veh'],
  ['f1 load', 'relay 30'],
  ['relay 87', 'guard in'],
  ['relay 31', 'step gnd'],
  ['step gnd', 'dash gr'],
  // The key: by way of the master switch to the relay and to the sensor.
  ['f2 load', 'mast 1'],
  ['mast 2', 'relay 15'],
  ['mast 2', 'sense res 1'],
  ['key sens k', 'dash gr'],
  ['key sens c', 'comp 11'],
  ['pull 1', 'comp 1'],
  ['key sens e', 'comp 25'],
  // 5 V.
  ['step out', 'comp 2'],
  ['step out', 'comp 4'],
  ['step 0v', 'comp 6'],
  ['step 0v', 'comp 14'],
  ['step 0v', 'comp 20'],
  ['step out', 'disp fuse sou'],
  ['touch 0v', 'step 0v'],
  // Buttons: two pins, one ground.
  ['comp 29', 'r3 1'],
  ['comp 31', 'r4 1'],
  ['comp 39', 's1 2'],
  ['s1 2', 's2 2'],
  // Plugs.
  ['comp usb1', 'usb dev'],
  ['comp usb2', 'usb sound usb'],
  ['comp usb3', 'touch touch'],
  ['comp video', 'touch video'],
  ['usb sound line', 'iso out'],
  ['iso in', 'radio sou'],
];

test('a wire by typing: one end, then the other; Escape goes back by one step', async ({ page }) => {
  const app = new App(page);
  await app.openPlan(smallPlan());
  await app.press('j');
  const field = (which: 'From' | 'To') => page.getByLabel(`${which} which terminal`);
  await field('From').fill('resistor 2');
  await app.press('Enter');
  await field('To').fill('converter nothing');
  await expect(page.getByText('No terminal is called so.')).toBeVisible();
  await app.press('Escape');
  await field('From').fill('resistor 2');
  await app.press('Enter');
  await field('To').fill('converter out');
  await app.press('Enter');
  expect(await app.findWire('Resistor.2', 'Converter.out')).not.toBeNull();
  // The same two again are refused in words.
  await field('From').fill('resistor 2 > converter out');
  await expect(page.getByRole('dialog')).toContainText('joined already');
  // Once for the words, once for the box.
  await app.press('Escape');
  await app.press('Escape');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await app.press('Control+z');
  expect(await app.findWire('Resistor.2', 'Converter.out')).toBeNull();
});
