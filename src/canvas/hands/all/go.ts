import { askFor } from '../../../state/panels.ts';
import { defineCommand, type Hand } from '../command.ts';

const open = ({ app }: Hand): boolean => app.getState().plan !== null;

/** Ways to the rest of the page for the keyboard: without them it is a long walk with Tab. */
export const shelf = defineCommand({
  id: 'go.shelf',
  title: 'Add a part or set …',
  group: 'Go to',
  words: 'new insert place shelf find',
  keys: ['N'],
  where: ['ground'],
  can: open,
  run: () => askFor('shelf'),
});

export const answers = defineCommand({
  id: 'go.answers',
  title: 'Go to the answers',
  group: 'Go to',
  words: 'findings report',
  keys: ['A'],
  can: open,
  run: () => askFor('answers'),
});

export const sheet = defineCommand({
  id: 'go.sheet',
  title: 'Open the wiring sheet',
  group: 'Go to',
  words: 'print paper',
  keys: ['S'],
  can: open,
  run: () => askFor('sheet'),
});
