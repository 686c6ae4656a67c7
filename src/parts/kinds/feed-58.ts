import { feedKind } from '../feed.ts';

export const feed58 = feedKind({
  line: '58',
  title: 'Side lamps 58',
  disc: '58',
  short: 'Side lamps',
  about: 'Live with the side lamps on: used to dim a screen at night. Dimmed instrument lighting is no clean supply.',
  words: ['illumination', 'lamps', 'dimmer', 'night'],
  where: 'radio plug',
  donorFuseA: 5,
  donorLoadA: 1,
  leadMm2: 0.75,
  lamp: true,
});
