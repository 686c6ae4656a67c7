import { feedKind } from '../feed.ts';

export const feed30 = feedKind({
  line: '30',
  title: 'Constant 30',
  disc: '30',
  short: 'Constant',
  about: 'Live at all times, also when the vehicle is parked and locked: what draws from it, draws from the parked battery.',
  words: ['constant', 'permanent', 'battery'],
  where: 'radio plug',
  donorFuseA: 15,
  donorLoadA: 4,
  leadMm2: 1.5,
});
