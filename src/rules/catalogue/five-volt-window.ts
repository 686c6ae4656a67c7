import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { Arrival } from '../../analysis/types.ts';
import { BOARD_SUPPLY } from '../../trade/boards.ts';
import { called, defineRule, part, STATE_WORDS, verdicts, volts, voltsApart } from '../defineRule.ts';
import { swapConverter, typing } from '../fixes.ts';
import { type Converter, converters } from '../rails.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('five-volt-window', 'C5');
/** Below this a rail is dead, V. */
const DEAD_V = 0.5;
/** Set-points tried, V: hundredths are what a fixed resistor pair can be chosen for. */
const SET_STEP_V = 0.01;

export const fiveVoltWindow = defineRule({
  id: 'five-volt-window',
  code: 'C5',
  level: 'hazard',
  title: '5 V outside its window',
  why: 'Above 5.25 V parts on the board die; below 4.86 V its supply watch may already warn and slow it down, below 4.75 V it need not work.',
  source: { text: 'Board maker’s supply chapter (read): 4.75 to 5.25 V, warning at 4.63 V ± 5 %', grade: 'data sheet' },
  needs: 'solve',
  disputed:
    'Some set the converter to 5.25 V, so that thin wires still leave enough at the board. It hides the wires and leaves nothing for tolerance: warm, unloaded or trimmed a little high, the rail is above what boards stand. Others keep 5.0 V and suffer under load. Here 5.1 V and short thick wires are the aim.',
  explains: ['five-volt-drop', 'part-volts'],
  check: (facts) => [...pins(facts).map(({ view, arrival }) => judge(facts, view, arrival)), ...neverFed(facts)],
  repair: (finding, facts) => {
    const pin = pins(facts).find((p) => p.view.part.id === finding.subject.id);
    const c = pin && feeder(facts, pin.view, pin.arrival);
    return pin && c ? repairs(facts, pin.arrival, c, pin.view.kind.kind === 'computer') : [];
  },
});

/** Computers and displays that get something at their 5 V. */
function pins(facts: Facts): { view: PartView; arrival: Arrival }[] {
  return facts.analysis.arrivals.flatMap((arrival) => {
    const view = facts.parts.get(arrival.part);
    return view && ['computer', 'touch-display'].includes(view.kind.kind) && (arrival.worstLow || arrival.worstHigh) ? [{ view, arrival }] : [];
  });
}

/** Computers that are wired to the vehicle's supply, with nothing left open on the way, and never get any of it. */
function neverFed(facts: Facts): Verdict[] {
  if (facts.solved.length === 0) return [];
  return facts.ofKind('computer').flatMap((view) => {
    const load = view.facts.loads?.[0];
    if (!load) return [];
    const [plus, minus] = [`${view.part.id}.${load.plus}`, `${view.part.id}.${load.minus}`];
    if ([plus, minus].some((key) => facts.netWires(facts.netOf(key)).length === 0)) return [];
    if (facts.solved.some((r) => (facts.across(plus, minus, r.state, r.band) ?? 0) > DEAD_V)) return [];
    const ahead = partsAhead(facts, view, plus);
    const open = (v: PartView): boolean => v.terminals.some((t) => t.required && !facts.isWired(`${v.part.id}.${t.id}`));
    if (!ahead.some((v) => v.facts.tap) || ahead.some(open)) return [];
    return [
      found({
        level: 'fault',
        subject: part(view.part.id),
        related: ahead.filter(mayHoldUp).map((v) => part(v.part.id)),
        what: `${called(view)} gets no power in any position of the key, although it is wired to the vehicle.`,
        todo: 'Follow its supply back: a coil that nothing energises, a diode or a guard the wrong way round, two sides swapped, a converter that is not enabled.',
      }),
    ];
  });
}

const HOLDS_UP: ReadonlySet<string> = new Set(['contact', 'diode']);

/** Can it keep current back, or does it make the volts anew? */
function mayHoldUp(v: PartView): boolean {
  return (v.facts.links ?? []).some((l) => HOLDS_UP.has(l.type)) || (v.facts.sources ?? []).some((s) => s.kind === 'converter');
}

/** Every part that hangs together with a terminal other than over ground or through the part itself. */
function partsAhead(facts: Facts, own: PartView, key: string): readonly PartView[] {
  const nets = new Set([facts.netOf(key)]);
  const parts = new Set<PartView>();
  for (const net of nets) {
    for (const at of facts.netTerminals(net)) {
      const view = facts.at(at)?.view;
      if (!view || view === own || parts.has(view)) continue;
      parts.add(view);
      for (const t of view.terminals) {
        const next = facts.netAt(view.part.id, t.id);
        if (next !== -1 && !facts.isGround(next)) nets.add(next);
      }
    }
  }
  return [...parts];
}

function judge(facts: Facts, view: PartView, a: Arrival): Verdict {
  const subject = part(view.part.id);
  const highV = a.worstHigh?.v ?? 0;
  const lowV = a.worstLow?.v ?? Number.POSITIVE_INFINITY;
  const figures = [
    ...(a.worstLow ? [{ label: 'least', value: a.worstLow.v, unit: 'V' }] : []),
    ...(a.worstHigh ? [{ label: 'most', value: a.worstHigh.v, unit: 'V' }] : []),
  ];
  const c = feeder(facts, view, a);
  const related = c ? [part(c.view.part.id)] : [];
  if (a.worstHigh && highV > BOARD_SUPPLY.maxV) {
    const [most, stands] = voltsApart(highV, BOARD_SUPPLY.maxV);
    const low = lowV < BOARD_SUPPLY.warnMaxV ? ` At full load it falls to ${volts(lowV)} as well.` : '';
    const bare = c === undefined;
    return found({
      level: 'hazard',
      subject,
      related,
      what: bare
        ? `${called(view)} gets up to ${most} at its 5 V pins, with no converter ahead; ${stands} is the most it stands.`
        : `${called(view)} may get ${most} at its 5 V pins with little load (${cornerOf(a.worstHigh.corner)}); ${stands} is the most it stands.${low}`,
      todo: bare ? 'Put a converter to 5 V between the vehicle and it.' : 'Set the converter lower, or fit one that holds its output more closely.',
      figures,
      state: a.worstHigh.state,
      band: 'high',
    });
  }
  // A display says by its own window when it gets too little; that is a matter of its wires.
  if (view.kind.kind !== 'computer' || !a.worstLow || lowV >= BOARD_SUPPLY.warnMaxV) return fine(subject);
  if (lowV < DEAD_V) {
    return found({
      level: 'fault',
      subject,
      related,
      what: `${called(view)} gets nothing at its 5 V pins with the key at “${STATE_WORDS[a.worstLow.state]}” when the supply is at its lowest, and something when it is not.`,
      todo: 'See what lets go ahead of it: the converter, a relay or a switch.',
      figures,
      state: a.worstLow.state,
      band: 'low',
    });
  }
  const fails = lowV < BOARD_SUPPLY.minV;
  const [gets, needs] = voltsApart(lowV, fails ? BOARD_SUPPLY.minV : BOARD_SUPPLY.warnMaxV);
  return found({
    level: fails ? 'fault' : 'advice',
    subject,
    related,
    what: fails
      ? `${called(view)} gets ${gets} at its 5 V pins at worst, with the key at “${STATE_WORDS[a.worstLow.state]}” (${cornerOf(a.worstLow.corner)}); it needs ${needs}.`
      : `${called(view)} gets ${gets} at its 5 V pins at worst, with the key at “${STATE_WORDS[a.worstLow.state]}” (${cornerOf(a.worstLow.corner)}); below ${needs} its supply watch may warn.`,
    todo: 'Set the converter a little higher, or shorten and thicken the wires between.',
    figures,
    state: a.worstLow.state,
    band: 'low',
  });
}

function cornerOf(corner: string): string {
  return corner === 'no tolerance matters here' ? 'tolerances aside' : corner;
}

/** The converter behind a 5 V part. */
function feeder(facts: Facts, view: PartView, a: Arrival): Converter | undefined {
  return converters(facts).find((c) => facts.reach(c.outKey, ['fuse', 'contact', 'conductor', 'diode']).has(`${view.part.id}.${a.plus}`));
}

function repairs(facts: Facts, a: Arrival, c: Converter, computer: boolean): Repair[] {
  const s = c.view.s;
  const tol = s.num('setTol');
  const setV = s.num('setV');
  const leastV = computer ? BOARD_SUPPLY.warnMaxV : (a.minV ?? BOARD_SUPPLY.minV);
  // Both ends move with the set-point; the middle of what is left is the best place.
  const most = setV + (BOARD_SUPPLY.maxV - (a.worstHigh?.v ?? setV * (1 + tol))) / (1 + tol);
  const least = setV + (leastV - (a.worstLow?.v ?? setV * (1 - tol))) / (1 - tol);
  const best = Math.round((least + most) / 2 / SET_STEP_V) * SET_STEP_V;
  const fits = best >= least + 0.002 && best <= most - 0.002;
  if (fits) return [typing(c.view.part.id, { setV: Number(best.toFixed(2)) }, `Set ${c.view.item} to ${best.toFixed(2)} V`, true)];
  const seenV = facts.seenSurgeV(c.inKey);
  const shift = (x: number, way: 1 | -1, x2: number): number =>
    way === 1 ? (a.worstHigh?.v ?? 0) - setV * (1 + tol) + x * (1 + x2) : (a.worstLow?.v ?? 0) - setV * (1 - tol) + x * (1 - x2);
  return swapConverter(
    facts,
    c,
    (x) =>
      x.setTol < tol &&
      0.9 * x.absMaxV >= seenV &&
      shift(x.setV, 1, x.setTol) <= BOARD_SUPPLY.maxV &&
      (a.worstLow === null || shift(x.setV, -1, x.setTol) >= leastV),
  );
}
