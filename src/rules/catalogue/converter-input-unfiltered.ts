import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { listed } from '../../plan/listed.ts';
import type { Edit, Plan, Wire } from '../../plan/types.ts';
import { nearestPreferred, RESISTOR_WATTS } from '../../trade/preferred.ts';
import { beside, end, movedEnd, newPart, newWire, SHORT_M } from '../build.ts';
import { called, defineRule, ohms, part, two, verdicts } from '../defineRule.ts';
import { type Converter, converters, vehicleRail } from '../rails.ts';
import { hopsOf, isResistor, netAt } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('converter-input-unfiltered', 'C17');
/** Least choke and capacitor of an input filter that deserves the name (fitters' habit). */
const LEAST_H = 10e-6;
const LEAST_F = 100e-6;
/** Damping resistance lies between these multiples of √(L/C), or the filter rings (fitters' habit). */
const DAMPED = { least: 0.5, most: 2 } as const;
/** What one puts in: choke and capacitor. */
const USUAL_H = 22e-6;
const USUAL_F = 220e-6;

export const converterInputUnfiltered = defineRule({
  id: 'converter-input-unfiltered',
  code: 'C17',
  level: 'advice',
  title: 'Vehicle ripple reaches the converter unfiltered, or a filter rings',
  why: 'Alternator ripple and the converter’s own switching meet on the supply lead and are heard where sound goes to the radio. A choke and a capacitor keep them apart; without damping the two ring like a bell.',
  source: { text: 'Choke, capacitor and a damping resistance of √(L/C): common practice, no source', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => judged(facts).map((j) => judge(facts, j)),
  repair: (finding, facts) => {
    const j = judged(facts).find((x) => x.converter.view.part.id === finding.subject.id);
    return j ? repairs(facts, j) : [];
  },
});

interface Judged {
  readonly converter: Converter;
  readonly choke: PartView | null;
  readonly filled: readonly PartView[];
}

/** Converters on the vehicle's volts: those with a choke, and all of them where sound goes to the radio over copper. */
function judged(facts: Facts): Judged[] {
  const rail = vehicleRail(facts);
  const sound = soundToRadio(facts);
  return converters(facts).flatMap((converter) => {
    const way = converter.view.kind.kind === 'step-down' ? rail.get(converter.inKey) : undefined;
    if (!way) return [];
    const choke = way.steps.find((s) => s.through?.kind.kind === 'choke')?.through ?? null;
    const net = facts.netOf(converter.inKey);
    const filled = facts.ofKind('capacitor').filter((c) => netAt(facts, c, '+') === net && c.s.num('farad') >= LEAST_F);
    // Where nobody listens half a filter is no matter; a whole one that rings is.
    return sound || (filters(choke) && filled.length > 0) ? [{ converter, choke, filled }] : [];
  });
}

/** Is it a choke that deserves the name? */
function filters(choke: PartView | null): choke is PartView {
  return choke !== null && choke.s.num('henry') >= LEAST_H;
}

/** Does a sound output reach the radio with no isolator between? */
function soundToRadio(facts: Facts): boolean {
  return facts.ofKind('radio-aux').some((radio) =>
    [...facts.reach(`${radio.part.id}.aux`, ['conductor']).keys()].some((key) => {
      const at = facts.at(key);
      return at !== null && (at.view.facts.sources ?? []).some((s) => s.kind === 'audio' && s.terminal === at.terminal.id);
    }),
  );
}

function judge(facts: Facts, j: Judged): Verdict {
  const { converter, choke, filled } = j;
  const subject = part(converter.view.part.id);
  if (!filters(choke) || filled.length === 0) {
    const lacks = !filters(choke) ? `no choke of ${two(LEAST_H * 1e6)} µH or more` : `no capacitor of ${two(LEAST_F * 1e6)} µF or more behind its choke`;
    return found({
      level: 'advice',
      subject,
      related: choke ? [part(choke.part.id)] : [],
      what: `${called(converter.view)} has ${lacks} at its input, and sound goes to the radio over copper: whine of alternator and converter finds its way in.`,
      todo: 'Put a choke ahead of it, a capacitor behind that, and a resistor across the choke so that the two do not ring.',
    });
  }
  const ringOhm = Math.sqrt(choke.s.num('henry') / filled.reduce((sum, c) => sum + c.s.num('farad'), 0));
  const dampOhm = damping(facts, choke, filled).find((r) => r >= DAMPED.least * ringOhm && r <= DAMPED.most * ringOhm);
  if (dampOhm !== undefined) return fine(subject);
  return found({
    level: 'advice',
    subject,
    related: [part(choke.part.id), ...filled.map((c) => part(c.part.id))],
    what: `${listed([choke, ...filled].map(called))} ahead of ${called(converter.view)} ring: √(L/C) is ${ohms(ringOhm)}, and nothing of half to twice that damps them.`,
    todo: `Put ${ohms(nearestPreferred(ringOhm, 'E12', 'up'))} across the choke.`,
    figures: [{ label: '√(L/C)', value: ringOhm, unit: 'Ω' }],
  });
}

/** Resistances that may damp: those across the choke, and the series resistance of the capacitors. */
function damping(facts: Facts, choke: PartView, filled: readonly PartView[]): number[] {
  const [a, b] = [netAt(facts, choke, '1'), netAt(facts, choke, '2')];
  const across = (hopsOf(facts).get(a) ?? []).filter((h) => h.to === b && isResistor(h)).map((h) => h.ohm);
  const esrOhm = 1 / filled.reduce((sum, c) => sum + 1 / c.s.num('esrOhm'), 0);
  return [...across, esrOhm];
}

function repairs(facts: Facts, j: Judged): Repair[] {
  const { choke, converter, filled } = j;
  if (choke && (!filters(choke) || filled.length === 0)) return [];
  const farad = filled.reduce((sum, c) => sum + c.s.num('farad'), 0) || USUAL_F;
  const ohm = nearestPreferred(Math.sqrt((choke?.s.num('henry') ?? USUAL_H) / farad), 'E12', 'up');
  if (choke) return [{ title: `Put ${ohms(ohm)} across the choke`, safe: true, edit: (plan) => acrossEdit(plan, choke.part.id, ohm) }];
  const way = vehicleRail(facts).get(converter.inKey)!;
  const last = way.steps.findLast((s) => s.wire !== null)?.wire;
  if (!last || ![last.from, last.to].some((e) => `${e.part}.${e.terminal}` === converter.inKey)) return [];
  return [
    {
      title: `Put a choke of ${two(USUAL_H * 1e6)} µH with ${ohms(ohm)} across it ahead of the converter${filled.length === 0 ? `, and ${two(USUAL_F * 1e6)} µF behind` : ''}`,
      safe: false,
      edit: (plan) => filterEdit(plan, converter, last, ohm, filled.length === 0),
    },
  ];
}

function acrossEdit(plan: Plan, choke: string, ohm: number): Edit | null {
  const row = plan.parts[choke];
  if (!row) return null;
  const draft = new Draft(plan);
  const damp = newPart(draft, { kind: 'resistor', ...beside(row, 0, 40), name: 'Damping', settings: { ohm, ratedW: RESISTOR_WATTS[1]! } });
  newWire(draft, end(damp, '1'), end(choke, '1'), { lengthM: SHORT_M });
  newWire(draft, end(damp, '2'), end(choke, '2'), { lengthM: SHORT_M });
  return draft.edit('repair.apply', 'Damp the filter');
}

/** The wire into the converter ends at the choke; choke, damping resistor and capacitor are joined behind. */
function filterEdit(plan: Plan, c: Converter, wire: Wire, ohm: number, withCapacitor: boolean): Edit | null {
  const row = plan.parts[c.view.part.id];
  const into = plan.wires[wire.id];
  if (!row || !into) return null;
  const draft = new Draft(plan);
  const input = end(row.id, c.load.plus);
  const choke = newPart(draft, { kind: 'choke', ...beside(row, -120, -40), name: 'Input choke' });
  const damp = newPart(draft, { kind: 'resistor', ...beside(row, -120, 0), name: 'Damping', settings: { ohm, ratedW: RESISTOR_WATTS[1]! } });
  draft.setWire(movedEnd(into, input, end(choke, '1'), true));
  newWire(draft, end(choke, '2'), input, { lengthM: SHORT_M });
  newWire(draft, end(damp, '1'), end(choke, '1'), { lengthM: SHORT_M });
  newWire(draft, end(damp, '2'), end(choke, '2'), { lengthM: SHORT_M });
  if (withCapacitor) {
    const ratedV = plan.vehicle.systemV === 24 ? 100 : 50;
    const cap = newPart(draft, { kind: 'capacitor', ...beside(row, -60, 100), name: 'Input filter', settings: { farad: USUAL_F, ratedV } });
    newWire(draft, end(cap, '+'), input, { lengthM: SHORT_M });
    newWire(draft, end(cap, '-'), end(row.id, c.load.minus), { lengthM: SHORT_M });
  }
  return draft.edit('repair.apply', 'Filter the input');
}
