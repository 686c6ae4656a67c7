import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { copperFactor } from '../../parts/values.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { type Coil, type CoilMargins, coilMargins, coils, letsGo } from '../coilMargins.ts';
import { ampsApart, called, defineRule, part, plain, STATE_WORDS, verdicts, volts } from '../defineRule.ts';
import { converters, vehicleRail } from '../rails.ts';
import type { Repair, Subject, Verdict } from '../types.ts';

const { fine, found } = verdicts('coil-will-not-pull-in', 'J3');
/** Relays are made to pull in from this share of the nominal voltage on, and to let go below this one (makers' sheets, from memory). */
const BEST = { pullIn: 0.5, letGo: 0.1 } as const;
const STEP_V = 0.1;
/** Once it is in, what it switches draws as well and takes some volts from the coil. */
const IN_HAND = 0.95;

export const coilWillNotPullIn = defineRule({
  id: 'coil-will-not-pull-in',
  code: 'J3',
  level: 'fault',
  title: 'Coil does not pull in on a low battery, or lets go in a start',
  why: 'Hot copper has more resistance: a coil that has been on for an hour in a hot place wants a quarter more voltage. And a relay that is in lets go when the starter pulls the battery down far enough.',
  source: { text: 'A relay maker’s sheet (read): pulls in by 7.2 V or 14.8 V at 20 °C, 52 K warmer when on; copper 0.393 % a kelvin', grade: 'data sheet' },
  needs: 'readings',
  explains: ['converter-starves', 'starting-reboots-computer'],
  check: (facts) =>
    coils(facts).flatMap((coil) => {
      const m = coilMargins(facts, coil);
      return m ? [judge(facts, coil, m)] : [];
    }),
  repair: (finding, facts) => {
    const coil = coils(facts).find((c) => c.view.part.id === finding.subject.id);
    const m = coil && coilMargins(facts, coil);
    // No other relay makes an optocoupler pass more.
    return coil && m && !m.starved ? better(coil, m) : [];
  },
});

function judge(facts: Facts, { view }: Coil, m: CoilMargins): Verdict {
  const subject = part(view.part.id);
  const needV = Math.max(m.coldNeedV, m.hotNeedV ?? 0);
  if (m.starved) {
    const { by, sureA, pullInA } = m.starved;
    const [passes, wants] = ampsApart(sureA, pullInA);
    return found({
      level: 'fault',
      subject,
      related: [part(by.part.id)],
      what: `${called(by)} is sure to pass ${passes}, aged and at its worst; the coil of ${called(view)} may need ${wants} to pull in.`,
      todo: 'Let a low-side driver switch the coil; an optocoupler has no more to give than a share of its LED’s current.',
      figures: [
        { label: 'sure to pass', value: sureA, unit: 'A' },
        { label: 'pulls in with', value: pullInA, unit: 'A' },
      ],
      state: m.make,
      band: 'low',
    });
  }
  if (m.makeV < needV) {
    const cold = m.makeV < m.coldNeedV;
    const tempC = view.maxC + (cold ? 0 : view.s.num('riseK'));
    return found({
      level: 'fault',
      subject,
      what: `The coil of ${called(view)} gets ${volts(m.makeV)} with the key at “${STATE_WORDS[m.make]}” and a tired battery, and ${cold ? 'at' : 'warmed up to'} ${plain(tempC)} °C it may need ${volts(cold ? m.coldNeedV : needV)} to pull in${cold ? '' : ' again'}.`,
      todo:
        (view.facts.loads?.[0]?.nominalV ?? 0) > facts.plan.vehicle.systemV
          ? `Fit one with a coil for ${facts.plan.vehicle.systemV} V.`
          : 'Put the relay in a cooler place, or fit one that pulls in sooner.',
      figures: [
        { label: 'gets', value: m.makeV, unit: 'V' },
        { label: 'needed to pull in', value: cold ? m.coldNeedV : needV, unit: 'V' },
      ],
      state: m.make,
      band: 'low',
    });
  }
  if (!m.hold || !letsGo(m.hold)) return fine(subject);
  const { hold } = m;
  const { dipLevel } = facts.plan.vehicle;
  const trough = hold.troughV < hold.letsGoV;
  return found({
    level: 'fault',
    subject,
    related: behind(facts, view),
    what: `While the starter turns at dip level ${dipLevel} the coil of ${called(view)} gets ${volts(trough ? hold.troughV : hold.dipV)}${trough ? '' : `, for ${plain(1e3 * hold.underS)} ms too little`}; warm, it may let go below ${volts(hold.letsGoV)}${trough ? '' : ` and bears that for ${plain(1e3 * hold.releaseS)} ms`}: what it feeds loses its power.`,
    todo: 'Fit a relay that holds on less voltage, an electronic switch, or let what it feeds start anew after each start of the engine.',
    figures: [
      { label: 'gets', value: trough ? hold.troughV : hold.dipV, unit: 'V' },
      { label: 'may let go below', value: hold.letsGoV, unit: 'V' },
      { label: 'too little for', value: hold.underS, unit: 's' },
    ],
    state: 'START',
    band: 'low',
  });
}

/** Converters that are fed through the relay's contact. */
function behind(facts: Facts, view: PartView): Subject[] {
  const rail = vehicleRail(facts);
  return converters(facts).flatMap((c) => (rail.get(c.inKey)?.steps.some((s) => s.through === view) ? [part(c.view.part.id)] : []));
}

/** A relay whose figures are good enough, where such relays are made. */
function better({ view, nominalV }: Coil, m: CoilMargins): Repair[] {
  const settings: Record<string, number> = {};
  const says: string[] = [];
  const hot = copperFactor(view.maxC + view.s.num('riseK'));
  const down = (v: number): number => Number((Math.floor(v / STEP_V) * STEP_V).toFixed(1));
  if (m.makeV < Math.max(m.coldNeedV, m.hotNeedV ?? 0)) {
    const pullInV = down(IN_HAND * Math.min(m.makeV / copperFactor(view.maxC), m.hotNeedV === null ? Number.POSITIVE_INFINITY : m.makeV / hot));
    if (pullInV < BEST.pullIn * nominalV) return [];
    settings.pullInV = pullInV;
    says.push(`pulls in by ${plain(pullInV)} V`);
  }
  if (m.hold && letsGo(m.hold)) {
    const dropOutMaxV = down(Math.min(m.hold.troughV, m.hold.dipV) / hot);
    if (dropOutMaxV < BEST.letGo * nominalV) return [];
    settings.dropOutMaxV = dropOutMaxV;
    settings.dropOutV = Math.min(view.s.num('dropOutV'), dropOutMaxV);
    says.push(`holds down to ${plain(dropOutMaxV)} V`);
  }
  if (says.length === 0) return [];
  return [{ title: `Fit a relay that ${says.join(' and ')} (at 20 °C)`, safe: false, edit: (plan) => setSettings(plan, view.part.id, settings) }];
}
