import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';

const { fine, found, unknown } = verdicts('critical-lead-tapped', 'L4');

export const criticalLeadTapped = defineRule({
  id: 'critical-lead-tapped',
  code: 'L4',
  level: 'hazard',
  title: 'A lead that people’s lives hang on is tapped',
  why: 'Brakes, steering, engine control, outside lamps, alarm, tachograph, the doors of a bus: a short in our wire, or a joint that lets go, takes them down with it, at speed. Their control units also notice what does not belong to them.',
  source: { text: 'Universal fitting practice; vehicle makers’ fitting instructions', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  check: (facts) =>
    [...facts.parts.values()].flatMap((view) => {
      const tap = view.facts.tap;
      if (!tap || !view.kind.settings.some((s) => s.key === 'serves')) return [];
      const wires = facts.netWires(facts.netOf(`${view.part.id}.${tap.terminal}`)).filter((w) => w.owner === 'build');
      if (wires.length === 0) return [];
      const subject = part(view.part.id);
      switch (view.s.str('serves')) {
        case 'comfort':
          return [fine(subject)];
        case 'unknown':
          return [unknown(subject, `what else hangs on the lead of ${called(view)}: see the list at the fuse box`)];
        default:
          return [
            found({
              level: 'hazard',
              subject,
              related: wires.map((w) => wire(w.id)),
              what: `${called(view)} at the ${tap.what || 'vehicle'} also serves brakes, steering, engine, restraint, alarm, tachograph, bus doors or outside lamps.`,
              todo: 'Take another lead: the radio’s permanent one, a socket, or a spare place of the fuse box.',
            }),
          ];
      }
    }),
});
