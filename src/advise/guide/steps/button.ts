import { nextFreePin } from '../../../analysis/freePins.ts';
import { pinUses } from '../../../rules/pins.ts';
import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { rolesOf, seenZone } from '../roles.ts';
import type { GuideStep, Scope } from '../types.ts';

/** 0 V pins of the header that lie near the free ones (board makers' pin tables). */
const ZERO_V = ['39', '34', '30', '9', '25', '20', '14', '6'];

export const button: GuideStep = {
  id: 'button',
  stage: 'draw',
  wish: 'buttons',
  title: 'A button on a free pin',
  todo: 'Join a push button between a free pin and 0 V, with a resistor and a small capacitor at the pin’s end of the lead.',
  why: 'A metre of wire behind a dash is an aerial: what it catches would count as presses, or hurt the pin. The two small parts keep it out.',
  byHand: 'Shelf, Sets: “Button with filter”. The resistor’s free side to a hollow cell of the header, the button’s free side to a 0 V pin.',
  rules: [
    'long-button-wire',
    'pin-already-taken',
    'pin-with-two-jobs',
    'pull-works-against-button',
    'button-of-wrong-kind',
    'three-volt-pin-misused',
    'outputs-fight',
  ],
  checks(scope) {
    const found = joined(scope);
    return [fact('A push button hangs on a pin of the computer, and pulls it to 0 V.', found !== undefined, found ?? scope.facts.ofKind('push-button')[0])];
  },
  offer({ plan, facts }) {
    const { computer } = rolesOf(facts);
    const pin = computer && nextFreePin(plan, computer.part.id, (p) => p.pin !== 1)?.pin;
    if (!computer || !pin) return null;
    const board = computer.part.id;
    const zero = ZERO_V.find((p) => !facts.isWired(`${board}.${p}`)) ?? '39';
    const kit = new Kit(plan, facts);
    const filter = kit.piece('button-filter', 'filter', computer.part.zone, [500, 640]);
    const series = kit.piece('button-filter', 'series', computer.part.zone, [430, 560]);
    const push = kit.piece('button-filter', 'button', seenZone(plan), [60, 440]);
    return kit
      .join(`${board}.${pin}`, `${series}.1`)
      .join(`${filter}.+`, `${series}.1`, { lengthM: 0.05 })
      .join(`${series}.2`, `${push}.1`)
      .join(`${push}.2`, `${board}.${zero}`)
      .join(`${filter}.-`, `${board}.${zero}`, { lengthM: 0.1 })
      .offer(`Add a button on pin ${pin}`);
  },
};

function joined({ facts }: Scope) {
  const pins = pinUses(facts);
  const grounded = (key: string): boolean => facts.isWired(key) && facts.isGround(facts.netOf(key));
  return facts.ofKind('push-button').find((b) => {
    const [one, two] = [`${b.part.id}.1`, `${b.part.id}.2`];
    const far = grounded(one) ? two : grounded(two) ? one : null;
    if (far === null) return false;
    const nets = new Set([...facts.reach(far, ['resistor', 'conductor']).keys()].map((k) => facts.netOf(k)));
    return pins.some((p) => [...p.nets].some((n) => nets.has(n)));
  });
}
