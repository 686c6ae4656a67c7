import { partKind } from '../../../parts/index.ts';
import { swapEnds } from '../../../plan/edits.ts';
import { commit, pressable, removeSelection, straightenSelection, turnSelection } from '../../commands.ts';
import { inlineShape } from '../../cutIn.ts';
import { fittedWire } from '../../replace.ts';
import { anyChosen, chosenParts, defineCommand, type Hand, only } from '../command.ts';

/** The one chosen part that has two ends, opposite each other. */
function inline(hand: Hand) {
  const id = only(hand);
  const part = id === null ? undefined : hand.app.getState().plan?.parts[id];
  const shape = part ? inlineShape(partKind(part.kind), part.settings) : null;
  return part && shape ? { part, shape } : null;
}

export const turn = defineCommand({
  id: 'turn',
  title: 'Turn by a quarter',
  group: 'Change',
  words: 'rotate',
  keys: ['R'],
  where: ['parts'],
  can: (hand) => chosenParts(hand).length > 0,
  run: ({ app }) => turnSelection(app),
});

export const swap = defineCommand({
  id: 'swap',
  title: 'Swap its two ends',
  group: 'Change',
  words: 'reverse flip round',
  keys: ['E'],
  where: ['parts'],
  can: (hand) => inline(hand) !== null,
  run: (hand) => {
    const found = inline(hand);
    const { plan, setNotice } = hand.app.getState();
    if (!found || !plan) return;
    const refusal = fittedWire(plan, found.part.id);
    if (refusal) setNotice({ kind: 'problem', text: refusal });
    else commit(hand.app, swapEnds(plan, found.part.id, found.shape.left, found.shape.right));
  },
});

export const replace = defineCommand({
  id: 'replace',
  title: 'Replace by another kind …',
  group: 'Change',
  words: 'change exchange type',
  keys: ['K'],
  where: ['parts'],
  can: (hand) => only(hand) !== null,
  run: (hand) => {
    const part = only(hand);
    if (part !== null) hand.open({ kind: 'replace', part });
  },
});

export const press = defineCommand({
  id: 'press',
  title: 'Press the button, or let it go',
  group: 'Change',
  keys: ['P'],
  where: ['parts'],
  can: ({ app }) => pressable(app) !== null,
  run: ({ app }) => {
    const button = pressable(app);
    if (button !== null) app.getState().press(button);
  },
});

export const join = defineCommand({
  id: 'join',
  title: 'Join terminals by name …',
  group: 'Wire',
  words: 'wire draw connect from to',
  keys: ['J'],
  where: ['parts', 'ground'],
  can: ({ app }) => Object.keys(app.getState().plan?.parts ?? {}).length > 1,
  run: (hand) => hand.open({ kind: 'join' }),
});

export const straighten = defineCommand({
  id: 'straighten',
  title: 'Let the wire find its own way',
  group: 'Wire',
  words: 'route bends',
  keys: ['W'],
  where: ['wires'],
  can: ({ app }) => app.getState().selection.wires.some((id) => app.getState().plan?.wires[id]?.bends),
  run: ({ app }) => straightenSelection(app),
});

export const remove = defineCommand({
  id: 'remove',
  title: 'Remove',
  group: 'Remove',
  words: 'delete erase',
  keys: ['Delete', 'Backspace'],
  where: ['parts', 'wires'],
  can: anyChosen,
  run: ({ app }) => removeSelection(app),
});
