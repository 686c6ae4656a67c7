import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('body-polarity', 'A19');
/** Parts of the vehicle whose shell is its body. */
const SHELLS: ReadonlySet<string> = new Set(['radio-aux', 'chassis-ground']);

export const bodyPolarity = defineRule({
  id: 'body-polarity',
  code: 'A19',
  level: 'hazard',
  title: 'The body may be battery positive',
  why: 'Some old vehicles join the battery’s positive post to the body. There every ground screw, metal case, USB shell and sound screen of ours that touches the body joins plus and minus: a dead short through the computer.',
  source: { text: 'Old vehicles with positive ground: workshop practice, no source', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  check: (facts) => {
    const ours = [...facts.parts.values()].some((v) => v.part.owner === 'build');
    const subject = { kind: 'plan', id: facts.plan.id } as const;
    if (!ours) return [];
    switch (facts.plan.vehicle.polarity) {
      case 'negative-ground':
        return [fine(subject)];
      case 'unknown':
        return [unknown(subject, 'which post of the battery is joined to the body')];
      case 'positive-ground': {
        const found = onBody(facts).map((view) => joined(view));
        return found.length > 0 ? found : [fine(subject)];
      }
    }
  },
});

/** Where the build's negative side, in a vehicle with positive ground, touches the body: our ground points, and shells that are joined to our 0 V. */
function onBody(facts: Facts): PartView[] {
  return [...facts.parts.values()].filter((view) => {
    if (!SHELLS.has(view.kind.kind)) return false;
    if (view.kind.kind === 'chassis-ground') return view.part.owner === 'build' && facts.isWired(`${view.part.id}.31`);
    return [...facts.reach(`${view.part.id}.aux~0`, ['conductor']).keys()].some((key) => {
      const at = facts.at(key);
      return at !== null && at.view !== view && at.terminal.role === 'ground' && at.view.part.owner === 'build';
    });
  });
}

function joined(view: PartView): Verdict {
  const shell = view.kind.kind !== 'chassis-ground';
  return found({
    level: 'hazard',
    subject: part(view.part.id),
    what: shell
      ? `The body is battery positive, and the screen at ${called(view)} joins the computer’s 0 V to it.`
      : `The body is battery positive, and ${called(view)} joins our negative side to it: a dead short.`,
    todo: shell
      ? 'Isolate the sound lead, and let no metal shell of ours touch the body.'
      : 'Feed everything from an isolated converter, insulate every case and shell from the body, and bring the return to the battery’s negative post with a fuse of its own there.',
  });
}
