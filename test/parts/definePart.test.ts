import { describe, expect, it } from 'vitest';
import { definePart, settingsOf } from '../../src/parts/definePart.ts';
import { amount, choice, words, yesNo } from '../../src/parts/settings.ts';
import { inlineBody, resistorGlyph } from '../../src/parts/symbols.ts';
import type { PartKind } from '../../src/parts/types.ts';

const GOOD: PartKind = {
  kind: 'sample',
  title: 'Sample',
  group: 'Join',
  about: 'A part that exists only in this test.',
  letter: 'R',
  settings: [
    amount('ohm', 'Resistance', 'ohm', [1, 10, 100], 'made up'),
    choice('type', 'Type', [['a', 'A']], 'made up'),
    yesNo('on', 'On', true, 'made up'),
    words('what', 'What', 'x', 'made up'),
  ],
  terminals: () => [
    { id: '1', label: '1', title: 'One', side: 'left', form: 'lead', role: 'any' },
    { id: '2', label: '2', title: 'Two', side: 'right', form: 'lead', role: 'any' },
  ],
  symbol: () => inlineBody('1', '2', resistorGlyph(30, 10), 16),
  behave: () => ({ elements: [] }),
  facts: () => ({}),
  spec: () => 'sample',
};

describe('definePart', () => {
  it('takes a good kind as it is', () => {
    expect(definePart(GOOD)).toBe(GOOD);
  });

  const slips: readonly (readonly [string, Partial<PartKind>, RegExp])[] = [
    ['a name in capitals', { kind: 'Sample Part' }, /plain-lower-case/],
    ['a setting twice', { settings: [...GOOD.settings, ...GOOD.settings] }, /"ohm" stands twice/],
    ['a setting without basis', { settings: [amount('ohm', 'Resistance', 'ohm', [1, 10, 100], ' ')] }, /"ohm" has no basis/],
    ['a default below its limits', { settings: [amount('ohm', 'Resistance', 'ohm', [20, 10, 100], 'made up')] }, /default of "ohm" is outside/],
    ['a default above its limits', { settings: [amount('ohm', 'Resistance', 'ohm', [1, 101, 100], 'made up')] }, /default of "ohm" is outside/],
    [
      'a default that is no option',
      { settings: [{ type: 'choice', key: 'type', label: 'Type', default: 'z', options: [{ value: 'a', label: 'A' }], basis: 'made up' }] },
      /"type" is not an option/,
    ],
    ['two terminals of one id', { terminals: () => [...GOOD.terminals(settingsOf(GOOD, {})), ...GOOD.terminals(settingsOf(GOOD, {}))] }, /share an id/],
    ['a terminal without pad', { symbol: () => inlineBody('1', 'two', [], 16) }, /terminal "2" has no pad/],
  ];
  it.each(slips)('refuses %s, naming kind and slip', (_what, slip, message) => {
    expect(() => definePart({ ...GOOD, ...slip })).toThrow(message);
    expect(() => definePart({ ...GOOD, ...slip })).toThrow(`part kind "${slip.kind ?? 'sample'}"`);
  });

  it('refuses a choice with nothing to choose', () => {
    expect(() => choice('type', 'Type', [], 'made up')).toThrow('nothing to choose');
  });
});

describe('settingsOf', () => {
  it('fills in defaults, keeps typed values and tells them apart', () => {
    const s = settingsOf(GOOD, { ohm: 47 });
    expect(s.num('ohm')).toBe(47);
    expect(s.typed('ohm')).toBe(true);
    expect(s.str('type')).toBe('a');
    expect(s.flag('on')).toBe(true);
    expect(s.typed('on')).toBe(false);
  });
  it('falls back to the default for a value of the wrong type and throws for an unknown key', () => {
    const s = settingsOf(GOOD, { ohm: 'many' });
    expect(s.num('ohm')).toBe(10);
    expect(() => s.num('nothing')).toThrow('"nothing"');
  });
});
