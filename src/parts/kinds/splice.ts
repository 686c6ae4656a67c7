import { definePart } from '../definePart.ts';

/** A joint of two or more wires. It has no electrical behaviour of its own: its terminal is the node. */
export const splice = definePart({
  kind: 'splice',
  title: 'Splice',
  group: 'Join',
  about: 'A place where two or more wires are joined for good, by a crimp or by solder and sleeve.',
  words: ['joint', 'junction', 'crimp', 'solder'],
  letter: 'X',
  settings: [],
  terminals: () => [{ id: 's', label: '', title: 'Joint', side: 'right', form: 'splice', role: 'any' }],
  symbol: () => ({
    w: 20,
    h: 20,
    primitives: [{ t: 'circle', x: 10, y: 10, r: 4, fill: 'ink' }],
    pads: { s: { x: 10, y: 10, side: 'right' } },
  }),
  behave: () => ({ elements: [] }),
  facts: () => ({}),
  spec: () => 'Closed crimp or solder joint with adhesive-lined sleeve',
});
