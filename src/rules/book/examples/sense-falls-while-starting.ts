import { sensedOn } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => sensedOn('75').set('computer', { filterS: 1 }),
  clean: () => sensedOn('75').set('relay', { holdS: 120 }).set('computer', { filterS: 15 }),
  inOrder: 'The program believes the line only after 15 s, longer than any start.',
  also: ['other', 'otherFuse', 'sense', 'computer'],
};
