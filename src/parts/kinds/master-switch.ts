import { contactElement, contactSettings } from '../contacts.ts';
import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import { inlineBody, switchGlyph } from '../symbols.ts';
import { plain } from '../values.ts';

/** A switch that stays where it is put. */
export const masterSwitch = definePart({
  kind: 'master-switch',
  title: 'Master switch',
  group: 'Switch',
  about: 'Switches the build off by hand. In the trigger line it lets the computer stop properly; in the feed it cuts a running computer.',
  words: ['rocker', 'toggle', 'isolator', 'on off', 'main'],
  letter: 'S',
  settings: [
    yesNo('closed', 'Switched on', true, 'the way the plan is meant to run'),
    amount('dcA', 'Direct current it may switch', 'A', [0.001, 10, 300], 'as printed for DC; common practice, no source', {
      help: 'A rating for alternating current says nothing about direct current.',
    }),
    amount('dcV', 'at', 'V', [1, 14, 100], 'as printed for DC; common practice, no source'),
    yesNo('acOnly', 'Only a rating for alternating current is printed', false, 'as printed on it', { rare: true }),
    ...contactSettings('silver'),
  ],
  variants: [
    { id: 'power', title: 'Rocker, 10 A at 14 V DC', settings: {} },
    { id: 'low-level', title: 'Gold contact, 1 mA to 3 A', settings: { contact: 'gold', dcA: 3, minA: 0.001 } },
  ],
  terminals: () => [
    { id: '1', label: '1', title: 'Side towards the source', side: 'left', form: 'blade', role: 'any', required: true },
    { id: '2', label: '2', title: 'Side towards the load', side: 'right', form: 'blade', role: 'any', required: true },
  ],
  symbol: () => inlineBody('1', '2', switchGlyph(30, 10), 12),
  behave: (s) => ({ elements: [contactElement('sw', '1', '2', s.flag('closed'), 'rocker')] }),
  facts: () => ({ links: [{ a: '1', b: '2', type: 'contact', contact: 'manual' }] }),
  subtitle: (s) => (s.flag('closed') ? 'on' : 'off'),
  spec: (s) =>
    `Switch, stays put, at least ${plain(s.num('dcA'))} A at ${plain(s.num('dcV'))} V DC, ${s.str('contact') === 'gold' ? 'gold' : 'silver'} contact`,
  meterPoints: () => [{ plus: '1', minus: '2', what: 'Drop across the closed switch under load' }],
});
