import { dayOf } from '../faces/today.ts';
import type { AppState } from '../state/types.ts';

/** From so many edits without a copy on it is worth a word: a browser may lose what it keeps. */
const WORTH_A_WORD = 20;

/** When the plan was last saved as a file, in words. */
export function lastCopy({ at }: AppState['copied']): string {
  return `last copy: ${at === null ? 'never' : dayOf(new Date(at))}`;
}

/** Has so much been done since the last copy that it should be told without being asked? */
export function wantsCopy({ edits }: AppState['copied']): boolean {
  return edits >= WORTH_A_WORD;
}
