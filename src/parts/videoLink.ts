import { definePart } from './definePart.ts';
import { JOIN_OHM, VIDEO_OHM } from './joints.ts';
import { amount } from './settings.ts';
import { moduleBox } from './symbols.ts';
import type { PartKind } from './types.ts';

/** The two ends of a long picture link: what they share is all but the direction. */
export function videoEnd(which: 'sender' | 'receiver'): PartKind {
  const sends = which === 'sender';
  return definePart({
    kind: `video-${which}`,
    title: sends ? 'Video sender' : 'Video receiver',
    group: 'Sound and picture',
    about: sends
      ? 'Puts a picture on a long lead, for distances that the plain picture lead does not reach. Needs a receiver at the other end.'
      : 'Takes the picture off a long lead. Needs a sender at the other end.',
    words: ['extender', 'link', 'picture', 'long cable'],
    letter: 'A',
    settings: [
      amount('minV', 'Least supply', 'V', [3, 9, 60], 'common practice, no source: printed on its label'),
      amount('maxV', 'Greatest working supply', 'V', [3, 30, 100], 'common practice, no source: printed on its label'),
      amount('absMaxV', 'Supply that destroys it', 'V', [3, 33, 120], 'assumed a tenth above the working range: take the maker’s figure'),
      amount('typA', 'Current', 'A', [0.01, 0.15, 3], 'common practice, no source: measure it'),
      ...(sends
        ? [amount('reachM', 'Reaches', 'm', [1, 15, 300], 'coaxial links made for vehicles reach 10 m to 15 m; from memory: take the maker’s figure')]
        : []),
    ],
    terminals: () => [
      { id: '+', label: '+', title: 'Supply plus', side: 'left', form: 'screw', role: 'supply', flow: 'in', required: true },
      { id: '-', label: '−', title: 'Supply minus', side: 'left', form: 'screw', role: 'ground', flow: 'in', required: true },
      {
        id: 'video',
        label: 'video',
        title: sends ? 'Picture in' : 'Picture out',
        side: 'right',
        form: 'video',
        role: 'video',
        flow: sends ? 'in' : 'out',
        required: true,
      },
      {
        id: 'link',
        label: 'link',
        title: sends ? 'Long lead out' : 'Long lead in',
        side: 'right',
        form: 'video',
        role: 'video',
        flow: sends ? 'out' : 'in',
        required: true,
      },
    ],
    symbol: () => moduleBox({ left: ['+', '-'], right: ['video', 'link'] }, 120, 60),
    behave: (s, { load }) => ({
      elements: [
        {
          kind: 'current',
          id: 'load',
          a: '+',
          b: '-',
          amp: { heavy: s.num('typA'), typical: s.num('typA'), light: s.num('typA') }[load],
          minV: (2 / 3) * s.num('minV'),
        },
        { kind: 'source', id: 'videoEnd', a: 'video', b: '-', volt: 0, ohm: VIDEO_OHM },
        { kind: 'source', id: 'linkEnd', a: 'link', b: '-', volt: 0, ohm: VIDEO_OHM },
        { kind: 'resistor', id: 'screen', a: 'video~0', b: '-', ohm: JOIN_OHM },
        { kind: 'resistor', id: 'linkScreen', a: 'link~0', b: '-', ohm: JOIN_OHM },
      ],
    }),
    facts: (s) => ({
      loads: [
        {
          plus: '+',
          minus: '-',
          label: sends ? 'Video sender' : 'Video receiver',
          nominalV: 12,
          minV: s.num('minV'),
          maxV: s.num('maxV'),
          absMaxV: s.num('absMaxV'),
          peakA: s.num('typA'),
          heatA: s.num('typA'),
        },
      ],
      links: [
        { a: 'video~0', b: '-', type: 'join' },
        { a: 'link~0', b: '-', type: 'join' },
      ],
      polar: [{ plus: '+', minus: '-', what: sends ? 'video sender' : 'video receiver' }],
    }),
    subtitle: (s) => `${s.num('minV')} to ${s.num('maxV')} V`,
    spec: (s) => `${sends ? 'Video sender' : 'Video receiver'}, ${s.num('minV')} to ${s.num('maxV')} V, ${s.num('typA')} A`,
    meterPoints: (s) => [{ plus: '+', minus: '-', what: `supply, never below ${s.num('minV')} V` }],
  });
}
