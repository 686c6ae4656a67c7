import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { wiresOn } from '../../plan/connect.ts';
import { Draft } from '../../plan/draft.ts';
import type { Wire } from '../../plan/types.ts';
import { end, movedEnd } from '../build.ts';
import { amps, called, defineRule, part, verdicts, wire, wireName } from '../defineRule.ts';

const { fine, found, unknown } = verdicts('ground-past-sensor', 'H9');

export const groundPastSensor = defineRule({
  id: 'ground-past-sensor',
  code: 'H9',
  level: 'fault',
  title: 'Ground wire passes the battery sensor by',
  why: 'Many vehicles count what flows in and out of the battery with a small box on its negative post. What comes home on the post itself is not counted: the vehicle charges too little and believes the battery fuller than it is.',
  source: { text: 'Vehicle makers’ fitting instructions for accessories: ground to the body, never to the post (from memory)', grade: "fitters' habit" },
  needs: 'readings',
  disputed:
    'Leading the return to the battery’s negative post is old practice: the least resistance and the least noise. Vehicles with a sensor at the post do not count what comes home behind it. Here the post is used only where no sensor sits on it; else the body, by a stud.',
  check: (facts) =>
    onPost(facts).map(({ battery, w }) => {
      const subject = wire(w.id);
      const { batterySensor } = facts.plan.vehicle;
      if (batterySensor === 'no') return fine(subject);
      if (batterySensor !== 'yes') return unknown(subject, 'whether a current sensor sits on the negative post of the battery');
      const report = facts.analysis.wires[w.id];
      const amp = report?.worstA ?? 0;
      return found({
        level: 'fault',
        subject,
        related: [part(battery.part.id)],
        what: `${wireName(facts, w.id)} comes home on the negative post of ${called(battery)} itself, behind the vehicle’s current sensor: up to ${amps(amp)} are never counted.`,
        todo: 'Bring it to the body instead: the sensor sits between body and post.',
        figures: [{ label: 'never counted', value: amp, unit: 'A' }],
        state: report?.worstState ?? null,
        band: report?.worstBand ?? null,
      });
    }),
  repair: (finding, facts) => {
    const strap = facts.ofKind('chassis-ground').find((v) => v.part.owner === 'vehicle' && facts.isWired(`${v.part.id}.31`));
    const here = onPost(facts).find((p) => p.w.id === finding.subject.id);
    if (!strap || !here) return [];
    return [
      {
        title: `Bring it to ${called(strap)}`,
        safe: true,
        edit: (plan) => {
          const row = plan.wires[here.w.id];
          if (!row) return null;
          const draft = new Draft(plan);
          draft.setWire(movedEnd(row, end(here.battery.part.id, '-'), end(strap.part.id, '31')));
          return draft.edit('repair.apply', 'Bring a ground wire to the body');
        },
      },
    ];
  },
});

/** Wires of the build that end on the battery's negative post itself. */
function onPost(facts: Facts): { battery: PartView; w: Wire }[] {
  return facts.ofKind('battery').flatMap((battery) =>
    wiresOn(facts.plan, battery.part.id, '-')
      .filter((w) => w.owner === 'build')
      .map((w) => ({ battery, w })),
  );
}
