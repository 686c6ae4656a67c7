import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { dashZone, holdEnds, onBody, rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const ground: GuideStep = {
  id: 'ground',
  stage: 'draw',
  title: 'One way back to the body',
  todo: 'Bring the minus of converter and hold relay together, and run one wire of the same size as the feed to one bare, tight place on the body.',
  why: 'All current that goes out must come back. Two grounds far apart differ by tenths of a volt, which is heard in the sound and confuses signals.',
  byHand: 'Shelf, Supply: “Chassis ground”, if there is none. Wires: converter “gnd” to the ground, hold relay 31 to converter “gnd”.',
  rules: ['ground-place-unfit', 'return-too-thin', 'ground-past-sensor', 'ground-behind-hinge', 'break-only-in-return', 'body-polarity'],
  checks({ facts }) {
    const { ground: body, hold, converter, battery } = rolesOf(facts);
    return [
      fact('The converter’s minus reaches the body.', converter !== undefined && onBody(facts, `${converter.part.id}.gnd`), converter, body),
      fact('The hold relay’s minus reaches the body.', hold !== undefined && onBody(facts, holdEnds(hold).minus), hold),
      fact('The battery’s minus reaches the body.', battery === undefined || facts.isWired(`${battery.part.id}.-`), battery),
    ];
  },
  offer({ plan, facts }) {
    const { ground: known, hold, converter, battery } = rolesOf(facts);
    if (!converter || !hold) return null;
    const kit = new Kit(plan, facts);
    const body = known?.part.id ?? kit.part({ kind: 'chassis-ground', zone: dashZone(plan), name: 'Dash ground' }, [80, 420]);
    if (battery && !facts.isWired(`${battery.part.id}.-`)) {
      const strap = kit.part({ kind: 'chassis-ground', zone: battery.part.zone, owner: 'vehicle', name: 'Battery strap' }, [80, 420]);
      kit.join(`${battery.part.id}.-`, `${strap}.31`, { owner: 'vehicle' });
    }
    if (!onBody(facts, holdEnds(hold).minus)) kit.join(holdEnds(hold).minus, `${converter.part.id}.gnd`);
    if (!onBody(facts, `${converter.part.id}.gnd`)) kit.join(`${converter.part.id}.gnd`, `${body}.31`);
    return kit.offer('Join the minus sides to the ground');
  },
};
