import { BOARDS, BOXES, type BoardClass, type BoardFacts, type BoxClass } from '../../trade/boards.ts';
import { HEADER } from '../../trade/header.ts';
import { climateSettings } from '../climate.ts';
import { amount, choice, yesNo } from '../settings.ts';
import type { Setting, Settings } from '../types.ts';

/** GPIO numbers on the header, rising. */
export const GPIOS: readonly number[] = HEADER.flatMap((p) => (p.gpio === null ? [] : [p.gpio])).sort((a, b) => a - b);

/** What one pin is set up to be. `automatic` counts as `in` until advise/ has chosen. */
export type PinMode = 'in' | 'in-up' | 'in-down' | 'out' | 'serial' | 'bus' | 'stopped-signal';

const MODES = [
  ['automatic', 'automatic'],
  ['in', 'input, no pull'],
  ['in-up', 'input, pulled up'],
  ['in-down', 'input, pulled down'],
  ['out', 'output'],
  ['serial', 'serial line'],
  ['bus', 'bus'],
] as const;

/** The pin's job at rest; the power-off pin has its own whatever its mode says. */
export function pinMode(s: Settings, gpio: number): PinMode {
  if (gpio !== 0 && Math.round(s.num('powerOffPin')) === gpio) return 'stopped-signal';
  const mode = s.str(`gpio${gpio}Mode`);
  return mode === 'automatic' ? 'in' : (mode as PinMode);
}

/** Longest time from key off to stopped, s. */
export function stopS(s: Settings): number {
  return s.num('filterS') + s.num('appS') + s.num('osS');
}

/** Figures of the chosen board class. */
export function boardOf(s: Settings): BoardFacts {
  return BOARDS[s.str('board') as BoardClass];
}

const BOX_ORDER: readonly BoxClass[] = ['vented', 'open', 'metal', 'closed', 'fan'];
const BOARD_ORDER: readonly BoardClass[] = ['high-power', 'low-power', 'mid-power', 'newest'];

export const computerSettings: readonly Setting[] = [
  choice(
    'board',
    'Board class',
    BOARD_ORDER.map((b) => [b, BOARDS[b].title] as const),
    'currents from the board maker’s power-supply page (read; newest class from memory)',
  ),
  choice(
    'feed',
    'Where its 5 V comes in',
    [
      ['header', 'header pins 2 and 4'],
      ['socket', 'power socket'],
    ],
    'both are in use; the header has no guard against wrong polarity on many boards',
  ),
  amount('senseGpio', 'GPIO that watches the key', '', [0, 0, 27], '0 = none: the computer is not told when the key goes off', {
    automatic: true,
    help: 'The key sensor’s wire ends here. Without one the computer runs until its power falls.',
  }),
  choice(
    'senseActive',
    'Level of that pin with the key on',
    [
      ['low-when-on', 'low with the key on'],
      ['high-when-on', 'high with the key on'],
    ],
    'an optocoupler to ground pulls the pin low while the key is on',
  ),
  amount('filterS', 'Waits before it believes the key', 's', [0, 3, 600], '2 to 5 s rides through starting and switch bounce; common practice, no source'),
  amount('appS', 'Time for its programs to close', 's', [0, 3, 600], 'common practice, no source: measure it'),
  amount('osS', 'Longest time to stop', 's', [1, 25, 600], 'about 10 s usual, 25 s at worst, 90 s when a service hangs; common practice, no source'),
  amount('bootS', 'Time to start', 's', [1, 30, 600], '25 to 40 s, common practice, no source: measure it'),
  amount(
    'inputFilterS',
    'Other inputs count once steady for',
    's',
    [0, 0, 5],
    '0 = not filtered; 0.05 s is usual for buttons and lamp lines; common practice',
    {
      rare: true,
      help: 'The program looks again after this time before it believes a pin. Pulses by which the vehicle feels for its bulbs are shorter.',
    },
  ),
  choice(
    'storage',
    'Its storage bears a sudden loss of power',
    [
      ['unknown', 'I don’t know'],
      ['written', 'no: a plain card or disk that is written to'],
      ['protected', 'yes: read-only system, or a store with its own reserve'],
    ],
    'a card that is written to while its power goes can lose more than the last file (board maker’s pages, read)',
    { rare: true },
  ),
  yesNo('caseBonded', 'Its metal case touches the body', false, 'plastic box or insulating feet; common practice, no source', {
    help: 'A case screwed to a bracket joins 0 V to the body a second time.',
    rare: true,
  }),
  yesNo('restartsOnKey', 'Starts again when the key comes back while it stops', true, 'the stop script restarts instead of halting; common practice', {
    help: 'Without this it ends halted with its power on, and stays so until the power has been away.',
  }),
  choice(
    'wakes',
    'What starts it again once stopped',
    [
      ['power', 'power away and back'],
      ['gpio3', 'GPIO 3 pulled low'],
    ],
    'only GPIO 3 wakes a halted board, and not with a power-off pin in use (board maker’s configuration page, read)',
  ),
  amount('powerOffPin', 'GPIO that says “stopped”', '', [0, 0, 27], '0 = none; the usual choice is 26 (board maker’s configuration page, read)', {
    rare: true,
    help: 'Low while the computer runs, high once it has stopped and its power may go.',
  }),
  choice(
    'box',
    'Its box',
    BOX_ORDER.map((b) => [b, BOXES[b].title] as const),
    'how much warmer the air inside gets for each watt; common practice, no source',
    { help: 'The board turns all it takes into heat: a closed plastic box keeps it in.' },
  ),
  ...climateSettings(-30, 85, 'board parts 0 to 85 °C, started below 0 °C in many vehicles; common practice, no source'),
  yesNo('strongPins', 'Pins set to their strongest drive', false, 'off as delivered (board maker’s GPIO notes)', {
    rare: true,
    help: 'The program asks for the strongest drive of its output pins.',
  }),
  yesNo('console', 'Serial console on GPIO 14 and 15', true, 'on as delivered in many systems; common practice', { rare: true }),
  yesNo('i2c', 'I2C bus on GPIO 2 and 3', false, 'off as delivered', { rare: true }),
  yesNo('spi', 'SPI bus on GPIO 7 to 11', false, 'off as delivered', { rare: true }),
  yesNo('digitalAudio', 'Digital sound on GPIO 18 to 21', false, 'off as delivered', { rare: true }),
  yesNo('usbBackfeed', 'USB ports let current back into the board', false, 'depends on the board; assumed not', {
    rare: true,
    help: 'On some boards a powered hub keeps the computer half alive through its USB port.',
  }),
  ...GPIOS.map((n) => choice(`gpio${n}Mode`, `GPIO ${n} is`, MODES, 'all pins are inputs after switching on (read)', { automatic: true, rare: true })),
];
