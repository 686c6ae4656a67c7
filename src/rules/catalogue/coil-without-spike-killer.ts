import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { beside, end, newPart, newWire, SHORT_M } from '../build.ts';
import { type CoilDriver, coilDriver, positiveSide } from '../coilDriver.ts';
import { called, defineRule, ohms, part, two, verdicts, voltsApart } from '../defineRule.ts';
import { grounded, type Hop, hopsOf, isResistor, netAt } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('coil-without-spike-killer', 'J2');
/** What a coil answers with when nothing takes its spike, V (from memory: 100 to 300 V and more). */
const BARE_V = 100;
/** Share of a driving transistor's voltage rating that one uses (practice). */
const DRIVER_SHARE = 0.8;
/** Coils have this much less than their printed resistance at the least. */
const COIL_LEAST = 0.9;

export const coilWithoutSpikeKiller = defineRule({
  id: 'coil-without-spike-killer',
  code: 'J2',
  level: 'hazard',
  title: 'Coil without a spike killer',
  why: 'A coil keeps its current going when it is switched off, and makes whatever voltage that takes: a hundred volts and more. It kills the transistor that drives it, and it is heard and felt by everything on the same line.',
  source: { text: 'Universal practice; spikes of 100 to 300 V from memory; greatest resistor by R = (0.8 V_max − V) × R_coil / V', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => facts.ofKind('relay', 'delay-off-relay').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    if (view.kind.kind === 'delay-off-relay' || positiveSide(facts, view) === '86') {
      return [{ title: 'Fit a relay with a diode across its coil', safe: true, edit: (plan) => setSettings(plan, view.part.id, { suppression: 'diode' }) }];
    }
    return diodeAcross(facts, view);
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  const subject = part(view.part.id);
  const own = view.s.str('suppression');
  if (view.kind.kind === 'delay-off-relay') {
    if (!facts.isWired(`${view.part.id}.30`)) return [];
    if (own !== 'none') return [fine(subject)];
    return [
      found({
        level: 'hazard',
        subject,
        what: `The coil of ${called(view)} has nothing across it: at each release it throws ${BARE_V} V and more at the timer’s own transistor.`,
        todo: 'Fit a timer whose coil has a diode or resistor built in.',
        figures: [{ label: 'spike at the least', value: BARE_V, unit: 'V' }],
      }),
    ];
  }
  if (!facts.isWired(`${view.part.id}.86`) || !facts.isWired(`${view.part.id}.85`)) return [];
  const driver = coilDriver(facts, view);
  if (own === 'diode' || across(facts, view, (h) => h.link.type === 'diode')) return [fine(subject)];
  const hiV = facts.corners.hiV * (view.s.num('coilV') < facts.plan.vehicle.systemV ? view.s.num('coilV') / facts.plan.vehicle.systemV : 1);
  const clamped = clampAt(facts, view, hiV);
  if (clamped) return [clampVerdict(view, driver, clamped)];
  const outside = across(facts, view, isResistor);
  const inside = own === 'resistor' ? view.s.num('suppressionOhm') : Number.POSITIVE_INFINITY;
  const ohm = Math.min(inside, outside === null ? Number.POSITIVE_INFINITY : outside.ohm * (1 + outside.views[0]!.s.num('tol')));
  if (Number.isFinite(ohm)) return [resistorVerdict(view, driver, hiV, ohm)];
  return [
    found({
      level: driver ? 'hazard' : 'fault',
      subject,
      related: driver ? [part(driver.view.part.id)] : [],
      what: driver
        ? `The coil of ${called(view)} has nothing across it and ${called(driver.view)} switches it: at each release ${BARE_V} V and more come back at a part that stands ${driver.maxV} V.`
        : `The coil of ${called(view)} has nothing across it: at each release it throws ${BARE_V} V and more into its line.`,
      todo: 'Put a diode across the coil, its ring (cathode) at the positive side, or fit a relay with one inside.',
      figures: [{ label: 'spike at the least', value: BARE_V, unit: 'V' }],
    }),
  ];
}

interface Clamped {
  readonly clamp: PartView;
  /** What comes back at the low side in spite of it, V. */
  readonly spikeV: number;
}

/** The clamp across the coil, or from its low side to ground, with what it lets come back; null when there is none. */
function clampAt(facts: Facts, view: PartView, hiV: number): Clamped | null {
  const amp = hiV / (view.s.num('coilOhm') * COIL_LEAST);
  const levelV = (clamp: PartView): number => {
    const slopeOhm = (clamp.s.num('clampV') - clamp.s.num('brMaxV')) / clamp.s.num('peakA');
    return clamp.s.num('brMaxV') + slopeOhm * amp;
  };
  const low = netAt(facts, view, positiveSide(facts, view) === '85' ? '86' : '85');
  const over = across(facts, view, (h) => h.link.type === 'clamp')?.views[0];
  if (over) {
    // A one-way clamp whose anode is at the low side conducts like a diode.
    const likeDiode = !over.s.flag('bidirectional') && netAt(facts, over, 'A') === low;
    return { clamp: over, spikeV: likeDiode ? hiV : hiV + levelV(over) };
  }
  const toGround = (hopsOf(facts).get(low) ?? []).find((h) => h.link.type === 'clamp' && grounded(facts, h.to))?.views[0];
  return toGround ? { clamp: toGround, spikeV: levelV(toGround) } : null;
}

/** A contact bears what any clamp lets come back; of a transistor's rating one uses a share. */
function clampVerdict(view: PartView, driver: CoilDriver | null, { clamp, spikeV }: Clamped): Verdict {
  const subject = part(view.part.id);
  const mostV = driver === null ? Number.POSITIVE_INFINITY : DRIVER_SHARE * driver.maxV;
  if (spikeV <= mostV || !driver) return fine(subject);
  const [comes, most] = voltsApart(spikeV, mostV);
  return found({
    level: 'hazard',
    subject,
    related: [part(clamp.part.id), part(driver.view.part.id)],
    what: `${called(clamp)} lets ${comes} of the coil of ${called(view)} come back at ${called(driver.view)}, which stands ${driver.maxV} V: ${most} is the most one lets it bear.`,
    todo: 'Fit a relay with a diode, or a clamp of fewer volts.',
    figures: [
      { label: 'spike', value: spikeV, unit: 'V' },
      { label: 'driver may bear', value: mostV, unit: 'V' },
    ],
  });
}

/** A resistor is enough for a contact; a transistor wants it small. */
function resistorVerdict(view: PartView, driver: CoilDriver | null, hiV: number, ohm: number): Verdict {
  const subject = part(view.part.id);
  if (!driver) return fine(subject);
  const coilOhm = view.s.num('coilOhm') * COIL_LEAST;
  const mostOhm = ((DRIVER_SHARE * driver.maxV - hiV) * coilOhm) / hiV;
  if (ohm <= mostOhm) return fine(subject);
  const spikeV = hiV + (hiV / coilOhm) * ohm;
  return found({
    level: 'hazard',
    subject,
    related: [part(driver.view.part.id)],
    what: `The ${ohms(ohm)} across the coil of ${called(view)} let ${two(spikeV)} V come back at ${called(driver.view)}, which stands ${driver.maxV} V.`,
    todo: mostOhm > 0 ? `Fit a relay with a diode, or at most ${ohms(mostOhm)} across the coil.` : 'Fit a relay with a diode across the coil.',
    figures: [
      { label: 'spike', value: spikeV, unit: 'V' },
      { label: 'resistor at most', value: Math.max(0, mostOhm), unit: 'Ω' },
    ],
  });
}

/** Something of a kind outside between the coil's two nets; null when there is none. */
function across(facts: Facts, view: PartView, is: (hop: Hop) => boolean): Hop | null {
  const [a, b] = [netAt(facts, view, '86'), netAt(facts, view, '85')];
  return (hopsOf(facts).get(a) ?? []).find((h) => h.to === b && !h.views.includes(view) && is(h)) ?? null;
}

function diodeAcross(facts: Facts, view: PartView): Repair[] {
  const plus = positiveSide(facts, view);
  if (plus === null) return [];
  return [
    {
      title: 'Put a 1N4007 across the coil',
      safe: true,
      edit: (plan) => {
        const relay = plan.parts[view.part.id];
        if (!relay) return null;
        const draft = new Draft(plan);
        const diode = newPart(draft, { kind: 'diode', ...beside(relay, 20, 100), name: 'Coil diode', settings: { type: '1n4007' } });
        newWire(draft, end(diode, 'K'), end(relay.id, plus), { lengthM: SHORT_M });
        newWire(draft, end(diode, 'A'), end(relay.id, plus === '86' ? '85' : '86'), { lengthM: SHORT_M });
        return draft.edit('repair.apply', 'Add a coil diode');
      },
    },
  ];
}
