import type { Primitive } from '../drawing/types.ts';
import type { Line } from '../plan/types.ts';
import { LINES } from '../trade/lines.ts';
import { definePart } from './definePart.ts';
import { amount, choice, words, yesNo } from './settings.ts';
import { disc, mark } from './symbols.ts';
import type { PartKind, Setting, Settings } from './types.ts';
import { byBand, plain } from './values.ts';

export interface FeedOptions {
  readonly line: Line;
  readonly title: string;
  /** What stands in the filled disc: the terminal number, or a letter where there is none. */
  readonly disc: string;
  /** The word beside the disc. */
  readonly short: string;
  readonly about: string;
  readonly words: readonly string[];
  /** Where such a lead is usually met. */
  readonly where: string;
  readonly donorFuseA: number;
  readonly donorLoadA: number;
  readonly leadMm2: number;
  /** The line feeds a bulb whose failure the vehicle may notice. */
  readonly lamp?: boolean;
  /** How long the vehicle keeps it live after key-off when no door opens, s; absent = it goes with the key. */
  readonly retainS?: number;
}

const W = 120;
const H = 40;

/**
 * One kind of feed: a vehicle lead that has been found and is tapped. It is the vehicle's, so its donor fuse and
 * lead are facts to be read and measured, not things the plan may choose.
 */
export function feedKind(o: FeedOptions): PartKind {
  return definePart({
    kind: `feed-${o.line}`,
    title: o.title,
    group: 'Feeds',
    about: o.about,
    words: [...o.words, LINES[o.line].terminal, 'feed', 'tap', 'lead'],
    owner: 'vehicle',
    letter: 'X',
    settings: settingsOfFeed(o),
    terminals: () => [
      { id: 'in', label: '', title: "From the vehicle's fuse box", side: 'left', form: 'lead', role: 'supply', flow: 'in' },
      { id: 'out', label: o.disc, title: 'Where we join on', side: 'right', form: 'lead', role: 'supply', flow: 'out' },
    ],
    symbol: () => ({
      w: W,
      h: H,
      primitives: pill(o),
      pads: { in: { x: 0, y: H / 2, side: 'left' }, out: { x: W, y: H / 2, side: 'right' } },
    }),
    behave: (s, situation) => {
      const [least, most] = sourceOhm(s);
      const ohm = byBand(situation.band, most, least);
      const a = situation.wired('in') ? 'in' : '@battery';
      const live = situation.live(o.line);
      // From the middle of a pair the lower battery alone drives the lead, and no vehicle wire to the posts counts.
      if (fromHalf(o, s)) return { elements: [{ kind: 'source', id: 'feed', a: 'out', b: '@0', volt: situation.supplyV / 2, ohm }] };
      return {
        elements: [{ kind: 'resistor', id: 'feed', a, b: 'out', ohm: live ? ohm : Number.POSITIVE_INFINITY, tol: { ohm: [least / ohm, most / ohm] } }],
      };
    },
    facts: (s) => {
      const [least, most] = sourceOhm(s);
      return {
        links: [o.line === '30' ? { a: 'in', b: 'out', type: 'conductor', ohm: most } : { a: 'in', b: 'out', type: 'contact', contact: 'manual' }],
        sources: [
          {
            terminal: 'out',
            returns: '@0',
            kind: 'feed',
            nominalV: 12,
            ...(fromHalf(o, s) ? { half: s.str('pair') === 'balanced' ? ('shared' as const) : ('alone' as const) } : {}),
            limitA: null,
            maxOhm: most,
            minOhm: least,
            donorFuseA: s.num('donorFuseA'),
            donorFuseRead: s.flag('donorFuseRead'),
            line: o.line,
          },
        ],
        tap: { terminal: 'out', line: o.line, what: s.str('where') },
      };
    },
    subtitle: (s) => s.str('where'),
    spec: (s) =>
      `${o.title} at the ${s.str('where')}, vehicle fuse ${plain(s.num('donorFuseA'))} A${s.flag('donorFuseRead') ? '' : ' (not read yet)'}, lead ${plain(s.num('leadMm2'))} mm²`,
    meterPoints: () => [{ plus: 'out', minus: '@0', what: `${o.title} in each key position` }],
  });
}

/** Is it tapped between the two batteries of a 24 V pair? */
function fromHalf(o: FeedOptions, s: Settings): boolean {
  return o.line === '30' && s.str('pair') !== 'whole';
}

/** Least and greatest source resistance, in order even when typed the wrong way round. */
function sourceOhm(s: Settings): readonly [number, number] {
  const a = s.num('sourceMinOhm');
  const b = s.num('sourceMaxOhm');
  return a <= b ? [a, b] : [b, a];
}

function settingsOfFeed(o: FeedOptions): Setting[] {
  return [
    words('where', 'Where the lead is met', o.where, 'common practice, no source'),
    amount('donorFuseA', "The vehicle's fuse for this lead", 'A', [1, o.donorFuseA, 100], 'common practice, no source: read it at the fuse box', {
      help: 'The number printed on the fuse that dies this lead when it is pulled.',
    }),
    yesNo('donorFuseRead', 'That fuse has been read at the vehicle', false, 'assumed not, until somebody has looked', {
      help: 'Only a fuse that was read counts as protection.',
    }),
    amount('donorLoadA', 'What the vehicle already draws from it', 'A', [0, o.donorLoadA, 100], 'common practice, no source: measure it'),
    yesNo('donorLoadMeasured', 'That draw has been measured', false, 'assumed not, until somebody has measured'),
    choice(
      'joint',
      'How our wire joins it',
      [
        ['unknown', 'not decided yet'],
        ['adapter', 'plug-in adapter, nothing cut'],
        ['crimp', 'crimp with an adhesive-lined sleeve'],
        ['solder', 'soldered, sleeved and held'],
        ['piercing', 'tap that pierces the insulation'],
        ['twist', 'twisted and taped'],
      ],
      'asked, because nothing in the drawing shows it',
    ),
    ...(o.line === '30'
      ? [
          choice(
            'pair',
            'In a 24 V vehicle, taken from',
            [
              ['whole', 'both batteries'],
              ['half', 'the middle of the pair'],
              ['balanced', 'the middle, with an equaliser that keeps them alike'],
            ],
            'the usual way',
            { rare: true },
          ),
        ]
      : []),
    amount('leadMm2', "Size of the vehicle's lead", 'mm2', [0.22, o.leadMm2, 50], 'common practice, no source: compare with a known wire'),
    choice(
      'serves',
      'What else hangs on this lead',
      [
        ['comfort', 'comfort: radio, socket, lamps inside, or nothing'],
        ['critical', 'brakes, steering, engine, restraint, alarm, tachograph, bus doors, outside lamps'],
        ['unknown', 'I don’t know: assume the worst'],
      ],
      'a radio or socket lead serves comfort alone; common practice, no source: see the fuse box list',
      { help: 'Nothing that keeps the vehicle on the road, or people in it, shares a lead with us.', rare: true },
    ),
    ...(o.line === '58' || o.line === 'reverse'
      ? [
          choice(
            'lamps',
            'Its lamps are',
            [
              ['unknown', 'not looked at yet'],
              ['bulb', 'bulbs'],
              ['led', 'LED lamps'],
            ],
            'asked, because LED lamps leave some volts on their line while off',
          ),
        ]
      : []),
    yesNo('proven', 'Measured in the key positions', false, 'assumed not, until somebody has measured', {
      help: 'A colour proves nothing: measure the lead with the key in each position before joining on.',
    }),
    ...(o.lamp
      ? [
          choice(
            'bulbCheck',
            'The vehicle checks this bulb',
            [
              ['unknown', 'I don’t know'],
              ['yes', 'yes: it tells of a failed bulb'],
              ['no', 'no'],
            ],
            'most vehicles since about 2000 do; common practice, no source: see the handbook',
            { rare: true },
          ),
        ]
      : []),
    ...(o.retainS === undefined
      ? []
      : [
          amount(
            'retainS',
            'Stays live after key-off, doors shut',
            's',
            [10, o.retainS, 7200],
            'ten minutes in the handbooks of five vehicles (read); half a minute to an hour is met',
            { help: 'Measured with every door shut: opening the driver’s door usually ends it at once.' },
          ),
        ]),
    amount('sourceMinOhm', 'Least resistance up to here', 'ohm', [0.001, 0.05, 10], 'radio plug, from memory', { rare: true }),
    amount('sourceMaxOhm', 'Greatest resistance up to here', 'ohm', [0.001, 0.1, 10], 'radio plug, common practice, no source', { rare: true }),
  ];
}

/** Rounded pill: filled disc with the terminal number at the left, the word beside it. */
function pill(o: FeedOptions): Primitive[] {
  return [
    { t: 'rect', x: 0, y: 5, w: W, h: 30, r: 15, fill: 'paper', ink: 'ink', lw: 1.5 },
    ...disc(17, H / 2, o.disc),
    mark(34, H / 2, o.short, 12, 'ink', 'start', true),
  ];
}
