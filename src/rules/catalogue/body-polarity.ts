import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { nodeName } from '../../analysis/graph.ts';
import { wiresOn } from '../../plan/connect.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { insulated, shellFlag } from '../shells.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('body-polarity', 'A19');

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
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    // How it is bolted is the person's to say.
    return view ? insulated(view, false) : [];
  },
});

/**
 * Where the build's negative side, in a vehicle with positive ground, touches the body: ground points with a wire of ours, cases and shells
 * of ours that are bolted to it, and the radio's screen, each when something of ours hangs on its 0 V.
 */
function onBody(facts: Facts): PartView[] {
  return [...facts.parts.values()].filter((view) => {
    if (view.kind.kind === 'chassis-ground') return wiresOn(facts.plan, view.part.id, '31').some((w) => w.owner === 'build');
    if (view.kind.kind !== 'radio-aux' && shellFlag(view) === null) return false;
    return (view.facts.links ?? []).some((l) => l.b === '@chassis' && meetsOurs(facts, view, nodeName(view, l.a)));
  });
}

/** Does a node lead, other than over the body, to the ground of another part of ours or to the battery's negative post? */
function meetsOurs(facts: Facts, view: PartView, node: string): boolean {
  return [...facts.reach(node, ['conductor'], (_, link) => link.b === '@chassis').keys()].some((key) => {
    const at = facts.at(key);
    return at !== null && at.view !== view && at.terminal.role === 'ground' && (at.view.part.owner === 'build' || at.view.kind.kind === 'battery');
  });
}

function joined(view: PartView): Verdict {
  const subject = part(view.part.id);
  if (view.kind.kind === 'radio-aux') {
    return found({
      level: 'hazard',
      subject,
      what: `The body is battery positive, and the screen at ${called(view)} joins the computer’s 0 V to it.`,
      todo: 'Isolate the sound lead, and let no metal shell of ours touch the body.',
    });
  }
  if (view.kind.kind !== 'chassis-ground') {
    return found({
      level: 'hazard',
      subject,
      what: `The body is battery positive, and the metal case or shell of ${called(view)}, which touches the body, joins our negative side to it: a dead short through it.`,
      todo: 'Mount it insulated, on plastic feet and bushes, and measure that it is apart from the body before anything is joined.',
    });
  }
  return found({
    level: 'hazard',
    subject,
    what: `The body is battery positive, and ${called(view)} joins our negative side to it: a dead short.`,
    todo: 'Feed everything from an isolated converter, insulate every case and shell from the body, and bring the return to the battery’s negative post with a fuse of its own there.',
  });
}
