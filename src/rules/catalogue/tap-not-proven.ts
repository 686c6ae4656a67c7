import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { typing } from '../fixes.ts';

const { fine, found } = verdicts('tap-not-proven', 'L9');

export const tapNotProven = defineRule({
  id: 'tap-not-proven',
  code: 'L9',
  level: 'fault',
  title: 'Joined to a lead that nobody has measured',
  why: 'The colour of a lead and its place in a plug prove nothing: radios were changed, looms repaired, makers swap colours within a model. Only the meter says what a lead does in each key position.',
  source: { text: 'Universal fitting practice: measure a lead in every key position, with a lamp as load, before it is used', grade: "fitters' habit" },
  needs: 'graph',
  stage: 'wire',
  check: (facts) =>
    [...facts.parts.values()].flatMap((view) => {
      const tap = view.facts.tap;
      if (!tap || !view.kind.settings.some((s) => s.key === 'proven')) return [];
      const wires = facts.netWires(facts.netOf(`${view.part.id}.${tap.terminal}`)).filter((w) => w.owner === 'build');
      if (wires.length === 0) return [];
      const subject = part(view.part.id);
      if (view.s.flag('proven')) return [fine(subject)];
      return [
        found({
          level: 'fault',
          subject,
          related: wires.map((w) => wire(w.id)),
          what: `The build is joined to ${called(view)}${tap.what ? ` at the ${tap.what}` : ''}, and nobody has measured what that does in each key position.`,
          todo: 'Measure it against ground in all six key positions, a 5 W lamp as load, write the readings into the list of taps, and only then join on.',
        }),
      ];
    }),
  repair: (finding) => [typing(finding.subject.id, { proven: true }, 'I have measured it in each key position', false)],
});
