import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { amps, ampsApart, called, defineRule, part, verdicts } from '../defineRule.ts';
import { netAt, railV } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('contact-under-rated', 'J1');
/** A contact likes half again as much rating as it carries (fitters' habit). */
const IN_HAND = 1.5;
/** Ratings that are on sale, A. */
const RATINGS_A: readonly number[] = [3, 5, 10, 16, 20, 30, 40, 70];
/** Charging volts over what is printed on a switch made for that system: 14 V for a 12 V vehicle. */
const PRINTED = 1.1;

/** What is printed on switches for a system, V (common practice, no source). */
const PRINTED_FOR = { 12: 14, 24: 28 } as const;

/** Contacts of a kind: element and the two terminals that the current passes. */
const CONTACTS: Readonly<Record<string, { readonly setting: string; readonly of: readonly { readonly element: string; readonly from: string }[] }>> = {
  relay: {
    setting: 'contactA',
    of: [
      { element: 'no', from: '30' },
      { element: 'nc', from: '30' },
    ],
  },
  'delay-off-relay': { setting: 'contactA', of: [{ element: 'contact', from: '30' }] },
  'master-switch': { setting: 'dcA', of: [{ element: 'sw', from: '1' }] },
  'hold-latch': { setting: 'ratedA', of: [{ element: 'contact', from: 'in' }] },
  'low-voltage-cutout': { setting: 'ratedA', of: [{ element: 'contact', from: 'in' }] },
};
/** Power relays of vehicles are made up to here, A (makers’ ranges, from memory). */
const MADE_UP_TO_A = 100;

export const contactUnderRated = defineRule({
  id: 'contact-under-rated',
  code: 'J1',
  level: 'hazard',
  title: 'Contact under-rated',
  why: 'A contact that opens more direct current than it is made for draws an arc that does not go out: it welds, or it burns. Ratings for mains say nothing here, for mains goes through zero by itself.',
  source: { text: 'Ratings as printed for direct current; half as much again from practice', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) => facts.ofKind(...Object.keys(CONTACTS)).flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const contact = view && CONTACTS[view.kind.kind];
    if (!view || !contact) return [];
    const rating = RATINGS_A.find((a) => a >= IN_HAND * worstA(facts, view).amp);
    if (rating === undefined || rating <= view.s.num(contact.setting)) return [];
    const dcV = PRINTED_FOR[facts.plan.vehicle.systemV];
    const volts = printedFor(facts, view) === null ? {} : { dcV };
    const title = `Fit one for ${rating} A${'dcV' in volts ? ` at ${dcV} V` : ''}`;
    return [{ title, safe: true, edit: (plan) => setSettings(plan, view.part.id, { [contact.setting]: rating, ...volts }) }];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  const contact = CONTACTS[view.kind.kind]!;
  const worst = worstA(facts, view);
  if (worst.amp <= 0) return [];
  const subject = part(view.part.id);
  const ratedA = view.s.num(contact.setting);
  const over = worst.amp > ratedA;
  const printed = printedFor(facts, view);
  // More than it may switch at fewer volts is more than it may switch here; less says nothing.
  if (printed !== null && !over) {
    return [unknown(subject, `what ${called(view)} may switch at ${printed.standsInV} V: its ${ratedA} A hold for ${printed.forV} V`)];
  }
  if (worst.amp * IN_HAND <= ratedA) return [fine(subject)];
  const [made, carries] = ampsApart(ratedA, worst.amp);
  return [
    found({
      // Within its printed rating it does what it is sold for; the half in hand is a habit for the years.
      level: over ? 'hazard' : 'advice',
      subject,
      what: `The contact of ${called(view)} is made for ${made}${printed === null ? '' : ` at ${printed.forV} V`} and carries ${carries}${printed === null ? '' : ` at ${printed.standsInV} V`}${over ? '' : `, with less in hand than the usual ${IN_HAND} times`}.`,
      todo:
        worst.amp * IN_HAND > MADE_UP_TO_A
          ? 'Carry less over it: no contact that one fits here is made for so much. Find out first what takes it.'
          : `Fit one for ${amps(worst.amp * IN_HAND)} or more, printed for direct current.`,
      figures: [
        { label: 'carries', value: worst.amp, unit: 'A' },
        { label: 'made for', value: ratedA, unit: 'A' },
      ],
      ...worst.at,
    }),
  ];
}

/** Largest current through any contact of a part, over all states and at the lowest supply, A. */
function worstA(facts: Facts, view: PartView): { amp: number; at: Partial<Pick<Parameters<typeof found>[0], 'state' | 'band'>> } {
  let amp = 0;
  let at: ReturnType<typeof worstA>['at'] = {};
  for (const { element } of CONTACTS[view.kind.kind]!.of) {
    const design = Math.abs(facts.designElementA(view.part.id, element) ?? 0);
    if (design > amp) [amp, at] = [design, { state: 'RUN_STOPPED', band: 'low' }];
    for (const r of facts.solved) {
      const a = Math.abs(facts.elementA(view.part.id, element, r.state, r.band) ?? 0);
      if (a > amp * (1 + 1e-6)) [amp, at] = [a, { state: r.state, band: r.band }];
    }
  }
  // Leakage of open contacts is no current.
  return amp < 1e-6 ? { amp: 0, at: {} } : { amp, at };
}

/** The volts that a switch's rating is printed for and those that it stands in, where these are more; null where the rating holds. */
function printedFor(facts: Facts, view: PartView): { readonly forV: number; readonly standsInV: number } | null {
  if (view.kind.kind !== 'master-switch') return null;
  const [forV, standsInV] = [view.s.num('dcV'), chargeV(facts, view)];
  return standsInV > PRINTED * forV ? { forV, standsInV } : null;
}

/** Charging voltage of what a switch stands in, V. */
function chargeV(facts: Facts, view: PartView): number {
  const nominal = Math.max(...['1', '2'].map((t) => railV(facts, netAt(facts, view, t)) ?? 0));
  return nominal >= facts.plan.vehicle.systemV ? facts.corners.chargeV : nominal;
}
