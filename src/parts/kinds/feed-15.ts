import { feedKind } from '../feed.ts';

export const feed15 = feedKind({
  line: '15',
  title: 'Ignition 15',
  disc: '15',
  short: 'Ignition',
  about: 'Live with the ignition on and while cranking: tells the computer that somebody is driving.',
  words: ['ignition', 'switched', 'key'],
  where: 'radio plug',
  donorFuseA: 10,
  donorLoadA: 2,
  leadMm2: 1,
});
