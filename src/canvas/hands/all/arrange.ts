import { type Arranged, alignParts, distributeParts, type Line, type Way } from '../../../plan/edits.ts';
import { ZONE } from '../../../scene/layout.ts';
import { commit } from '../../commands.ts';
import { chosenParts, defineCommand, type Hand } from '../command.ts';

/** Drawn sizes of the chosen parts; a stud on its chassis bar has its height from the bar and is left out there. */
function sizes({ engine, app }: Hand, down: boolean) {
  const { plan, selection } = app.getState();
  return new Map(
    selection.parts.flatMap((id) => {
      const [placed, part] = [engine.scene?.parts.get(id), plan?.parts[id]];
      const standing = placed && part && placed.box.y !== ZONE.head + part.y;
      return placed && part && !(down && standing) ? [[id, { w: placed.box.w, h: placed.box.h }] as const] : [];
    }),
  );
}

function take({ app }: Hand, done: Arranged): void {
  if (done.ok) commit(app, done.edit);
  else app.getState().setNotice({ kind: 'problem', text: `${done.reason}.` });
}

const align = (line: Line, title: string, key: string, down: boolean) =>
  defineCommand({
    id: `align.${line}`,
    title,
    group: 'Line up',
    words: 'align straight arrange edge',
    keys: [key],
    where: ['parts'],
    can: (hand) => chosenParts(hand).length > 1,
    run: (hand) => {
      const { plan } = hand.app.getState();
      if (plan) take(hand, alignParts(plan, sizes(hand, down), line));
    },
  });

export const left = align('left', 'Line up left edges', 'L', false);
export const right = align('right', 'Line up right edges', 'Shift+L', false);
export const centre = align('centre', 'Line up middles in a column', 'C', false);
export const top = align('top', 'Line up top edges', 'T', true);
export const bottom = align('bottom', 'Line up bottom edges', 'Shift+T', true);
export const middle = align('middle', 'Line up middles in a row', 'M', true);

const space = (way: Way, title: string, key: string) =>
  defineCommand({
    id: `space.${way}`,
    title,
    group: 'Line up',
    words: 'distribute even gaps',
    keys: [key],
    where: ['parts'],
    can: (hand) => chosenParts(hand).length > 2,
    run: (hand) => {
      const { plan } = hand.app.getState();
      if (plan) take(hand, distributeParts(plan, sizes(hand, way === 'down'), way));
    },
  });

export const across = space('across', 'Space out sideways', 'G');
export const down = space('down', 'Space out up and down', 'Shift+G');
