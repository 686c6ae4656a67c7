import { contactElement, contactSettings } from '../contacts.ts';
import { definePart } from '../definePart.ts';
import { yesNo } from '../settings.ts';
import { inlineBody, pushButtonGlyph, switchGlyph } from '../symbols.ts';

/** A button for a thumb; closed while it is pressed on the screen. */
export const pushButton = definePart({
  kind: 'push-button',
  title: 'Push button',
  group: 'Switch',
  about: 'Joins its two terminals while pressed: between a pin and 0 V the computer reads it through the pull-up resistor.',
  words: ['button', 'key', 'momentary', 'input'],
  letter: 'S',
  settings: [
    ...contactSettings('gold'),
    yesNo('latching', 'Stays in when pressed', false, 'common practice, no source', {
      help: 'A button on the stop pin must spring back, or the computer stops again at each start.',
    }),
  ],
  terminals: () => [
    { id: '1', label: '1', title: 'First contact', side: 'left', form: 'lead', role: 'signal', required: true },
    { id: '2', label: '2', title: 'Second contact', side: 'right', form: 'lead', role: 'signal', required: true },
  ],
  symbol: (s) => inlineBody('1', '2', s.flag('latching') ? switchGlyph(30, 10) : pushButtonGlyph(30, 10), 12),
  behave: (_, { pressed }) => ({ elements: [contactElement('sw', '1', '2', pressed, 'button')] }),
  facts: () => ({ links: [{ a: '1', b: '2', type: 'contact', contact: 'manual' }] }),
  spec: (s) => `Push button, ${s.flag('latching') ? 'latching' : 'momentary'}, ${s.str('contact') === 'gold' ? 'gold-flashed' : 'silver'} contact`,
  meterPoints: () => [{ plus: '1', minus: '2', what: 'Resistance: open, then pressed (power off)' }],
});
