import { feedKind } from '../feed.ts';

export const feed75 = feedKind({
  line: '75',
  title: 'Accessory 75',
  disc: '75',
  short: 'Accessory',
  about: 'Live in the accessory and ignition positions, but dead while cranking: a computer fed from here alone restarts at every engine start.',
  words: ['accessory', 'radio', 'key'],
  where: 'radio plug',
  donorFuseA: 15,
  donorLoadA: 4,
  leadMm2: 1.5,
});
