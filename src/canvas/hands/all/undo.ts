import { defineCommand } from '../command.ts';

/** Their keys work on the whole page, so the page listens to them. */
export const undo = defineCommand({
  id: 'undo',
  title: 'Undo',
  group: 'Undo',
  words: 'back',
  keys: ['Ctrl+Z'],
  keysElsewhere: true,
  where: ['ground'],
  can: ({ app }) => app.getState().past.length > 0,
  run: ({ app }) => app.getState().undo(),
});

export const redo = defineCommand({
  id: 'redo',
  title: 'Do it again',
  group: 'Undo',
  words: 'redo',
  keys: ['Ctrl+Shift+Z'],
  keysElsewhere: true,
  where: ['ground'],
  can: ({ app }) => app.getState().future.length > 0,
  run: ({ app }) => app.getState().redo(),
});
