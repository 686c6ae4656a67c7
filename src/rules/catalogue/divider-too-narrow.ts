import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { listed } from '../../plan/listed.ts';
import type { End } from '../../plan/types.ts';
import { CLAMP_MAX_A, PIN_MAX_V, RAIL3 } from '../../trade/logic.ts';
import { DIODES, type DiodeType } from '../../trade/semiconductors.ts';
import { addSensor, farEnd, onlyWire } from '../build.ts';
import { amps, called, defineRule, part, verdicts, volts, wire } from '../defineRule.ts';
import { isRail3, moversOf, type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { grounded, type Hop, isResistor, netAt, partsOn, railV, waysFrom } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('divider-too-narrow', 'D8');
/** Current into a pin's own guard diode from which one speaks of destruction, A, and the volts at which that diode takes it (practice). */
const INJECTED_A = 0.5e-3;
const GUARD_V = 3.9;
/** A clamp at the pin must be of metal on silicon: one of silicon conducts later than the pin's own. */
const SCHOTTKY_N = 1.3;
/** Forward voltage of such a diode at a milliamp, V (data sheets, from memory). */
const SCHOTTKY_V = 0.2;

export const dividerTooNarrow = defineRule({
  id: 'divider-too-narrow',
  code: 'D8',
  level: 'hazard',
  title: 'A divider that cannot serve both ends of the supply',
  why: 'Two resistors divide whatever comes. Sized for a weak battery they give a pin too much on a good alternator; sized for that, a weak battery no longer reads as “on”. And a surge comes through in the same share.',
  source: { text: 'Board maker’s pin tables (read); supply corners of ISO 16750-2 (read)', grade: 'data sheet' },
  needs: 'graph',
  disputed:
    'A divider with a clamp has two parts fewer than an optocoupler and needs no current from the line. One divider must read a low battery as on and still keep the highest supply off the pin, and resistors of 5 % leave hardly any room between. Here a divider passes when both ends work out with its tolerances; where they do not, an optocoupler is the way.',
  explains: ['pin-over-voltage'],
  check: (facts) => dividers(facts).map((d) => judge(facts, d)),
  repair: (finding, facts) => {
    const d = dividers(facts).find((x) => x.use.wire.id === finding.subject.id);
    return d ? sensorInstead(facts, d) : [];
  },
});

interface Divider {
  readonly use: PinUse;
  /** Resistors from the vehicle's line to the pin, and from there to 0 V. */
  readonly top: readonly PartView[];
  readonly low: readonly PartView[];
  readonly topOhm: { readonly least: number; readonly most: number };
  readonly lowOhm: { readonly least: number; readonly most: number };
  readonly feedKey: string;
  /** Schottky diode from the pin to 3.3 V. */
  readonly clamp: PartView | null;
}

/** Pins that a vehicle line reaches over resistors, with others from there to 0 V, and nothing that moves them. */
function dividers(facts: Facts): Divider[] {
  return pinUses(facts).flatMap((use) => {
    if (moversOf(facts, use).length > 0) return [];
    const low = pullsOn(facts, use.nets)
      .filter((p) => p.volt === 0)
      .map((p) => p.view);
    if (low.length === 0) return [];
    const system = facts.plan.vehicle.systemV;
    const ends = (net: number): boolean => railV(facts, net) !== null || grounded(facts, net);
    const ways = waysFrom(facts, netAt(facts, use.computer, `${use.cell.pin}`), through, ends);
    const up = [...ways].filter(([net, way]) => (railV(facts, net) ?? 0) >= system && way.hops.some(isResistor)).sort(([, a], [, b]) => a.ohm - b.ohm)[0];
    if (!up) return [];
    const hops = up[1].hops.filter(isResistor);
    const sum = (side: -1 | 1): number =>
      hops.reduce((all, h) => all + 1 / h.views.reduce((s, v) => s + 1 / (v.s.num('ohm') * (1 + side * v.s.num('tol'))), 0), 0);
    const feedKey = facts.netTerminals(up[0])[0] ?? use.key;
    return [
      {
        use,
        top: hops.flatMap((h) => h.views),
        low,
        topOhm: { least: sum(-1), most: sum(1) },
        lowOhm: { least: parallelOhm(low, 'least'), most: parallelOhm(low, 'most') },
        feedKey,
        clamp: clampAt(facts, use),
      },
    ];
  });
}

function through(hop: Hop): boolean {
  const type = hop.link.type;
  if (type === 'contact') return hop.views[0]!.kind.kind !== 'optocoupler' && hop.views[0]!.kind.kind !== 'low-side-driver';
  return isResistor(hop) || type === 'fuse' || type === 'conductor' || (type === 'diode' && !hop.forward && hop.views[0]!.kind.kind === 'diode');
}

function clampAt(facts: Facts, use: PinUse): PartView | null {
  for (const net of use.nets) {
    for (const { view, terminal } of partsOn(facts, net)) {
      if (view.kind.kind !== 'diode' || terminal !== 'A' || DIODES[view.s.str('type') as DiodeType].n > SCHOTTKY_N) continue;
      const rail = railV(facts, netAt(facts, view, 'K'));
      if (rail !== null && isRail3(rail)) return view;
    }
  }
  return null;
}

function judge(facts: Facts, d: Divider): Verdict {
  const { use, topOhm, lowOhm, clamp } = d;
  const subject = wire(use.wire.id);
  const { loV, hiV } = facts.corners;
  const share = lowOhm.most / (lowOhm.most + topOhm.least);
  const leastV = (loV * lowOhm.least) / (lowOhm.least + topOhm.most);
  const mostV = hiV * share;
  const seenV = facts.seenSurgeV(d.feedKey);
  /** Current that is left over at the pin when it is held at `v`. */
  const injected = (v: number): number => Math.max(0, (seenV - v) / topOhm.least - v / lowOhm.most);
  const related = [use.computer.part.id, ...[...d.top, ...d.low].map((v) => v.part.id)].map(part);
  const bad = (level: 'hazard' | 'fault', what: string, more: { label: string; value: number; unit: string }): Verdict =>
    found({
      level,
      subject,
      related,
      what,
      todo: `${narrow(facts, d) ? 'No plain divider serves from a weak battery to a strong alternator here: put' : 'Put'} a key sensor (resistor, optocoupler, reverse diode, pull-up) in its place.`,
      figures: [{ label: 'pin at the most', value: mostV, unit: 'V' }, { label: 'pin at the least', value: leastV, unit: 'V' }, more],
      state: 'RUN_CHARGING',
      band: 'high',
    });
  const names = listed([...d.top, ...d.low].map(called));
  if (clamp) {
    const amp = injected(RAIL3.maxV + SCHOTTKY_V);
    if (amp > CLAMP_MAX_A) {
      return bad(
        'fault',
        `In a surge of ${volts(seenV)} ${names} push ${amps(amp)} through ${called(clamp)} into the 3.3 V; it should stay below ${amps(CLAMP_MAX_A)}.`,
        { label: 'into the 3.3 V', value: amp, unit: 'A' },
      );
    }
  } else {
    const amp = injected(GUARD_V);
    if (seenV * share > PIN_MAX_V && amp > INJECTED_A) {
      return bad('hazard', `In a surge of ${volts(seenV)} ${names} push ${amps(amp)} into ${pinName(use)}, whose guard diode was never made for that.`, {
        label: 'into the pin',
        value: amp,
        unit: 'A',
      });
    }
    if (mostV > RAIL3.typicalV) {
      return bad('fault', `At ${volts(hiV)} ${names} put ${volts(mostV)} on ${pinName(use)}, which takes ${RAIL3.typicalV} V.`, {
        label: 'pin takes',
        value: RAIL3.typicalV,
        unit: 'V',
      });
    }
  }
  if (leastV < use.logic.vIhMinV) {
    return bad('fault', `At ${volts(loV)} ${names} leave ${volts(leastV)} at ${pinName(use)}; it reads high from ${volts(use.logic.vIhMinV)} on.`, {
      label: 'reads high from',
      value: use.logic.vIhMinV,
      unit: 'V',
    });
  }
  return fine(subject);
}

/** Is the supply's range, with these tolerances, wider than the pin's? Then no pair of resistors will do. */
function narrow(facts: Facts, d: Divider): boolean {
  const { loV, hiV } = facts.corners;
  const spread = d.lowOhm.most / (d.lowOhm.most + d.topOhm.least) / (d.lowOhm.least / (d.lowOhm.least + d.topOhm.most));
  return (hiV / loV) * spread > RAIL3.typicalV / d.use.logic.vIhMinV;
}

/** Takes the two resistors away and puts an optocoupler between the line and the pin. */
function sensorInstead(facts: Facts, d: Divider): Repair[] {
  const { use, top, low } = d;
  const [one, other] = [top[0], low[0]];
  if (!one || !other || top.length !== 1 || low.length !== 1 || use.wires.length !== 1 || d.clamp) return [];
  const outer = ['1', '2'].find((t) => !use.nets.has(netAt(facts, one, t)));
  const lineWire = outer === undefined ? null : onlyWire(facts.plan, one.part.id, outer);
  if (!lineWire) return [];
  const line: End = farEnd(lineWire, one.part.id);
  return [
    {
      title: 'Put a key sensor in place of the divider',
      safe: false,
      edit: (plan) => {
        const computer = plan.parts[use.computer.part.id];
        if (!computer || !plan.parts[line.part] || !plan.parts[one.part.id] || !plan.parts[other.part.id]) return null;
        const draft = new Draft(plan);
        const gone = [one.part.id, other.part.id];
        for (const w of Object.values(plan.wires)) if (w.id === use.wire.id || gone.includes(w.from.part) || gone.includes(w.to.part)) draft.removeWire(w.id);
        for (const id of gone) draft.removePart(id);
        if (Math.round(use.computer.s.num('senseGpio')) === use.gpio)
          draft.setPart({ ...computer, settings: { ...computer.settings, senseActive: 'low-when-on' } });
        return addSensor(draft, line, computer, use.cell.pin, null) ? draft.edit('repair.apply', 'Key sensor for a divider') : null;
      },
    },
  ];
}
