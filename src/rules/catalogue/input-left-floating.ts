import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { insidePull, moversOf, type PinUse, pinName, pinUses } from '../pins.ts';
import { addPull } from '../sensingEdits.ts';
import { grounded, isResistor, netAt, railV, waysFrom } from '../trace.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('input-left-floating', 'E6');
/** A path weaker than this holds no level against leakage and noise, ohm (fitters' habit). */
const HOLDS_OHM = 1e6;
/** Usual pull resistor, ohm. */
const PULL_OHM = 10_000;

export const inputLeftFloating = defineRule({
  id: 'input-left-floating',
  code: 'E6',
  level: 'fault',
  title: 'Input left hanging',
  why: 'With the button open nothing says whether this pin is high or low. It then reads whatever the nearest wire radiates: presses that nobody made.',
  source: { text: 'Universal practice; input leakage of the board maker’s tables (read)', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) =>
    inputs(facts).map((use) => {
      const subject = wire(use.wire.id);
      if (held(facts, use)) return fine(subject);
      const mover = moversOf(facts, use)[0];
      return found({
        level: 'fault',
        subject,
        related: [part(use.computer.part.id), ...(mover ? [part(mover.part.id)] : [])],
        what: `${pinName(use)} is an input with no pull, and nothing holds its level${mover ? ` while ${called(mover)} is open` : ''}.`,
        todo: `Add ${PULL_OHM / 1000} kΩ to 3.3 V, or switch the pin’s own pull on.`,
      });
    }),
  repair: (finding, facts) => {
    const use = inputs(facts).find((u) => u.wire.id === finding.subject.id);
    if (!use) return [];
    const up = !pullsTowards3(facts, use);
    const own: Repair = {
      title: `Switch the pull-${up ? 'up' : 'down'} of GPIO ${use.gpio} on`,
      safe: true,
      edit: (plan) => setSettings(plan, use.computer.part.id, { [`gpio${use.gpio}Mode`]: up ? 'in-up' : 'in-down' }),
    };
    const external = addPull(use, PULL_OHM, up);
    // An optocoupler leaks: behind it the stiffer resistor comes first.
    return moversOf(facts, use).some((m) => m.kind.kind === 'optocoupler') ? [external, own] : [own, external];
  },
});

/** Pins that only listen. */
function inputs(facts: Facts): PinUse[] {
  return pinUses(facts).filter((u) => u.mode === 'in' || u.mode === 'in-up' || u.mode === 'in-down');
}

/** A level is sure with every contact open: by the pin's own pull, or over resistors to a rail or ground. */
function held(facts: Facts, use: PinUse): boolean {
  if (Number.isFinite(insidePull(use, 'up').most) || Number.isFinite(insidePull(use, 'down').most)) return true;
  const ends = (net: number): boolean => railV(facts, net) !== null || grounded(facts, net);
  const ways = waysFrom(
    facts,
    netAt(facts, use.computer, `${use.cell.pin}`),
    (h) => isResistor(h) || h.link.type === 'conductor' || h.link.type === 'fuse',
    ends,
  );
  return [...ways].some(([net, way]) => ends(net) && way.ohm < HOLDS_OHM);
}

/** Does the button or transistor pull the pin towards 3.3 V, so that it must rest low? */
function pullsTowards3(facts: Facts, use: PinUse): boolean {
  return moversOf(facts, use).some((m) =>
    m.terminals.some((t) => {
      const net = netAt(facts, m, t.id);
      return !use.nets.has(net) && railV(facts, net) !== null;
    }),
  );
}
