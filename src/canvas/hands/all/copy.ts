import { duplicateWired } from '../../../plan/copy.ts';
import { clipHeld, keepClip, nextPaste } from '../../clipboard.ts';
import { commit, copySelection, duplicateSelection, paste, removeSelection, selectAll } from '../../commands.ts';
import { takesWire } from '../../sensibleEnds.ts';
import { chosenParts, defineCommand, type Hand } from '../command.ts';

const some = (hand: Hand): boolean => chosenParts(hand).length > 0;

/** Keeps the chosen parts here, and gives the system's clipboard their text where the browser lets it. */
function take(hand: Hand): boolean {
  const clip = copySelection(hand.app);
  if (!clip) return false;
  keepClip(clip);
  void navigator.clipboard?.writeText(JSON.stringify(clip)).catch(() => undefined);
  return true;
}

export const copy = defineCommand({
  id: 'copy',
  title: 'Copy',
  group: 'Copy',
  keys: ['Ctrl+C'],
  keysElsewhere: true,
  where: ['parts'],
  can: some,
  run: (hand) => {
    take(hand);
  },
});

export const cut = defineCommand({
  id: 'cut',
  title: 'Cut out',
  group: 'Copy',
  keys: ['Ctrl+X'],
  keysElsewhere: true,
  where: ['parts'],
  can: some,
  run: (hand) => {
    if (take(hand)) removeSelection(hand.app);
  },
});

export const put = defineCommand({
  id: 'paste',
  title: 'Paste what was copied',
  group: 'Copy',
  words: 'insert from another plan',
  keys: ['Ctrl+V'],
  keysElsewhere: true,
  where: ['ground'],
  can: () => clipHeld() !== null,
  run: ({ app }) => {
    const clip = clipHeld();
    if (clip) paste(app, clip, nextPaste());
  },
});

export const duplicate = defineCommand({
  id: 'duplicate',
  title: 'Duplicate',
  group: 'Copy',
  words: 'second again double',
  keys: ['Ctrl+D'],
  where: ['parts'],
  can: some,
  run: ({ app }) => duplicateSelection(app),
});

export const duplicateWithWires = defineCommand({
  id: 'duplicate.wired',
  title: 'Duplicate with its wires',
  group: 'Copy',
  words: 'second again double parallel',
  keys: ['Ctrl+Shift+D'],
  where: ['parts'],
  can: some,
  run: (hand) => {
    const { plan, select, setNotice } = hand.app.getState();
    if (!plan) return;
    const made = duplicateWired(plan, chosenParts(hand), 20, 20, (end) => takesWire(plan, end));
    if (!commit(hand.app, made.edit)) return;
    select({ parts: made.ids, wires: [] });
    const n = made.left.length;
    if (n > 0)
      setNotice({
        kind: 'info',
        text: `${n === 1 ? 'One wire was' : `${n} wires were`} not doubled: the other end takes one wire only. Join the new part there yourself.`,
      });
  },
});

export const all = defineCommand({
  id: 'all',
  title: 'Choose everything',
  group: 'Copy',
  words: 'select all',
  keys: ['Ctrl+A'],
  where: ['ground'],
  can: ({ app }) => app.getState().plan !== null,
  run: ({ app }) => selectAll(app),
});
