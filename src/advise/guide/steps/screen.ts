import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { freePort } from '../ports.ts';
import { rolesOf, seenZone } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const screen: GuideStep = {
  id: 'screen',
  stage: 'draw',
  wish: 'screen',
  title: 'A display on a fuse of its own',
  todo: 'Feed the display from the converter through its own fuse, and join picture and touch to the computer.',
  why: 'Its lead runs to where hands and knees are. When it is pinched, that fuse blows and the computer lives on to say so.',
  byHand:
    'Shelf, Sets: “Display with its fuse”. Wires: converter “out” to the fuse, display “0 V” to converter “0 V”, picture to picture, touch to a USB port.',
  rules: ['picture-lead-too-long', 'half-of-pair', 'current-through-screen', 'dead-part-fed-by-signal', 'plug-does-not-match'],
  checks({ facts }) {
    const { display, computer } = rolesOf(facts);
    const id = display?.part.id;
    const fed = id !== undefined && facts.sourcesFor(`${id}.5v`).length > 0 && facts.isWired(`${id}.0v`);
    const shown = id !== undefined && computer !== undefined && facts.isWired(`${id}.video`);
    return [
      fact('A display is on the plan.', display !== undefined, display),
      fact('It gets its 5 V, and has a way back.', fed, display),
      fact('Its picture comes from somewhere.', shown, display, computer),
    ];
  },
  offer({ plan, facts }) {
    const { display, computer, converter } = rolesOf(facts);
    if (!computer || !converter) return null;
    const kit = new Kit(plan, facts);
    const id = display?.part.id ?? kit.piece('display-fused', 'display', seenZone(plan), [60, 60]);
    if (!display || facts.sourcesFor(`${id}.5v`).length === 0) {
      const fuse = kit.piece('display-fused', 'fuse', converter.part.zone, [940, 60]);
      kit.join(`${converter.part.id}.out`, `${fuse}.1`, { lengthM: 0.1 }).join(`${fuse}.2`, `${id}.5v`);
    }
    if (!display || !facts.isWired(`${id}.0v`)) kit.join(`${id}.0v`, `${converter.part.id}.0v`);
    if (!display || !facts.isWired(`${id}.video`)) kit.join(`${computer.part.id}.video`, `${id}.video`);
    const port = freePort(facts, computer);
    if (port && (!display || !facts.isWired(`${id}.touch`))) kit.join(`${computer.part.id}.${port}`, `${id}.touch`);
    return kit.offer('Add a display');
  },
};
