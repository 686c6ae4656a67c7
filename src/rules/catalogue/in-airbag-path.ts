import type { Facts } from '../../analysis/factsTypes.ts';
import { wireRoute } from '../../plan/lengths.ts';
import type { Zone } from '../../plan/types.ts';
import { called, defineRule, part, verdicts, wire, wireName } from '../defineRule.ts';
import type { Subject, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('in-airbag-path', 'L1');

export const inAirbagPath = defineRule({
  id: 'in-airbag-path',
  code: 'L1',
  level: 'hazard',
  title: 'Something lies where an airbag unfolds',
  why: 'An airbag opens in a thirtieth of a second and throws whatever is in front of it at the person behind. A box on its cover, a bracket or a wire along a pillar can keep it from opening at all.',
  source: { text: 'Workshop manuals’ restraint precautions (read); common practice', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  check: (facts) => Object.values(facts.plan.zones).flatMap((zone) => judge(facts, zone)),
});

function judge(facts: Facts, zone: Zone): Verdict[] {
  if (zone.bag === undefined) return [];
  const inside = [...facts.parts.values()].filter((v) => v.part.owner === 'build' && v.part.zone === zone.id);
  const here = new Set(inside.map((v) => v.part.id));
  const through = Object.values(facts.plan.wires).filter(
    (w) => w.owner === 'build' && !here.has(w.from.part) && !here.has(w.to.part) && wireRoute(facts.plan, w)?.zones.includes(zone.id),
  );
  const subjects: Subject[] = [...inside.map((v) => part(v.part.id)), ...through.map((w) => wire(w.id))];
  if (zone.bag === 'no') return [fine({ kind: 'plan', id: facts.plan.id })];
  if (subjects.length === 0) return [fine({ kind: 'plan', id: facts.plan.id })];
  if (zone.bag === 'unknown') return [unknown(subjects[0]!, `whether an airbag or a belt tensioner unfolds through the zone “${zone.name}”`)];
  return [
    ...inside.map((v) => bad(part(v.part.id), `${called(v)} lies in the zone “${zone.name}”, where an airbag or a belt tensioner unfolds.`)),
    ...through.map((w) => bad(wire(w.id), `${wireName(facts, w.id)} passes the zone “${zone.name}”, where an airbag or a belt tensioner unfolds.`)),
  ];
}

function bad(subject: Subject, what: string): Verdict {
  return found({ level: 'hazard', subject, what, todo: 'Move it out of there; leave covers, trims and looms of the restraint system as they are.' });
}
