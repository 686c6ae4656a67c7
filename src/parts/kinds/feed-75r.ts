import { feedKind } from '../feed.ts';

export const feed75r = feedKind({
  line: '75r',
  title: 'Retained accessory 75',
  disc: '75',
  short: 'Retained',
  about: 'Accessory supply that the vehicle itself holds for some minutes after key-off, often until a door opens.',
  words: ['retained', 'accessory', 'delay', 'door'],
  where: 'radio plug',
  donorFuseA: 15,
  donorLoadA: 4,
  leadMm2: 1.5,
  retainS: 600,
});
