import { feedKind } from '../feed.ts';

export const feedReverse = feedKind({
  line: 'reverse',
  title: 'Reversing lamp',
  disc: 'R',
  short: 'Reverse',
  about: 'Live in reverse gear with the ignition on: switches to the rear camera picture.',
  words: ['reverse', 'gear', 'camera', 'lamp'],
  where: 'reversing lamp lead',
  donorFuseA: 10,
  donorLoadA: 3.5,
  leadMm2: 0.75,
  lamp: true,
});
