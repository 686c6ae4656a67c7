import { zoomedAt } from '../../camera.ts';
import { boundsOf } from '../../lookAt.ts';
import { menuAt } from '../../menuPlace.ts';
import { anyChosen, defineCommand, type Hand } from '../command.ts';

const open = ({ app }: Hand): boolean => app.getState().plan !== null;
const zoom = ({ engine }: Hand, by: number): void => engine.moveCamera(zoomedAt(engine.camera, engine.size, engine.size.w / 2, engine.size.h / 2, by));

export const find = defineCommand({
  id: 'find',
  title: 'Find a part or wire …',
  group: 'Look',
  words: 'search name number',
  keys: ['/'],
  where: ['ground'],
  can: open,
  run: (hand) => hand.open({ kind: 'find' }),
});

export const fit = defineCommand({
  id: 'fit',
  title: 'Show the whole plan',
  group: 'Look',
  words: 'fit all zoom',
  keys: ['F'],
  where: ['ground'],
  can: open,
  run: ({ engine }) => engine.fit(),
});

export const toChosen = defineCommand({
  id: 'fit.chosen',
  title: 'Show what is chosen, large',
  group: 'Look',
  words: 'zoom to selection',
  keys: ['Z'],
  where: ['parts', 'wires'],
  can: anyChosen,
  run: ({ engine, app }) => {
    const box = engine.scene ? boundsOf(engine.scene, app.getState().selection) : null;
    if (box) engine.fitTo(box);
  },
});

export const closer = defineCommand({
  id: 'closer',
  title: 'Closer',
  group: 'Look',
  words: 'zoom in larger',
  keys: ['+', '='],
  can: open,
  run: (hand) => zoom(hand, 1.25),
});
export const further = defineCommand({
  id: 'further',
  title: 'Further away',
  group: 'Look',
  words: 'zoom out smaller',
  keys: ['-'],
  can: open,
  run: (hand) => zoom(hand, 0.8),
});

export const list = defineCommand({
  id: 'commands',
  title: 'All commands and their keys …',
  group: 'Look',
  words: 'help shortcuts keyboard',
  keys: ['?'],
  where: ['ground'],
  can: open,
  run: (hand) => hand.open({ kind: 'commands' }),
});

export const menu = defineCommand({
  id: 'menu',
  title: 'Open the menu of what is chosen',
  group: 'Look',
  words: 'context',
  keys: ['Shift+F10', 'ContextMenu'],
  can: open,
  run: (hand) => hand.open(menuAt(hand.engine)),
});
