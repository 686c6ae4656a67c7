import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { clampEnergyJ } from '../../analysis/surge.ts';
import { partSets, setPartSettings } from '../../parts/index.ts';
import type { Values } from '../../plan/types.ts';
import { called, defineRule, part, two, verdicts, volts } from '../defineRule.ts';
import { answerClamping, swapConverter, typing } from '../fixes.ts';
import { clampingNote, converters, cornersOf, dumpV, unclampedTodo, vehicleRail } from '../rails.ts';
import type { Finding, Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('surge-not-stopped', 'A11');
/** Share of its absolute limit that a converter may see (common practice, no source). */
const MARGIN = 0.9;

export const surgeNotStopped = defineRule({
  id: 'surge-not-stopped',
  code: 'A11',
  level: 'hazard',
  title: 'Surge clamp missing or of the wrong kind',
  why: 'When a battery lead comes off with the engine running, the alternator pushes the supply up for tenths of a second: a load dump. Whatever hangs on it must stand that, or something ahead must hold it down without dying itself.',
  source: { text: 'ISO 16750-2 load dump tests A and B (read); suppressor data sheets', grade: 'standard' },
  needs: 'graph',
  disputed:
    'Small 600 W clamps for 24 V are sold for vehicles everywhere. Against them: a load dump at full length puts more than 100 J into a part made for about 1 J, and it fails short. For them: alternators that clamp inside rarely let such a surge out. Here the sum decides: a converter that stands 60 V comes first, and a clamp counts only behind a fuse, when it rests through a jump start and bears the energy.',
  always: true,
  check: (facts) => {
    const rail = vehicleRail(facts);
    const clamps = facts.ofKind('surge-clamp').filter((v) => rail.has(`${v.part.id}.K`));
    const guarded = converters(facts).filter((c) => rail.has(c.inKey));
    return [...clamps.map((v) => judgeClamp(facts, v)), ...guarded.map((c) => judgeConverter(facts, c, clamps))];
  },
  repair: (finding, facts) =>
    facts.parts.get(finding.subject.id)?.kind.kind === 'surge-clamp' ? clampRepairs(finding, facts) : converterRepairs(finding, facts),
});

function judgeClamp(facts: Facts, view: PartView): Verdict {
  const corners = cornersOf(facts);
  const subject = part(view.part.id);
  const standoffV = view.s.num('standoffV');
  const longestV = Math.max(corners.jumpV, corners.hiV);
  if (standoffV < longestV) {
    const always = standoffV < corners.hiV;
    const event = facts.plan.vehicle.systemV === 12 ? 'a jump start' : 'a failed regulator';
    return found({
      level: 'hazard',
      subject,
      what: always
        ? `${called(view)} holds back only ${volts(standoffV)} for ever, and the alternator may bring ${volts(corners.hiV)} as long as the engine runs: it conducts all that time and burns.`
        : `${called(view)} holds back only ${volts(standoffV)} for ever, but ${event} brings ${volts(longestV)} for a minute and more: it conducts all that time and burns.`,
      todo: `Fit a clamp that stands off more than ${volts(longestV)}.`,
      figures: [
        { label: 'stand-off voltage', value: standoffV, unit: 'V' },
        ...(always ? [{ label: 'running, at most', value: corners.hiV, unit: 'V' }] : []),
        { label: event.replace(/^a /, ''), value: longestV, unit: 'V' },
      ],
    });
  }
  const energyJ = clampEnergyJ(view, dumpV(facts), corners);
  const mostJ = view.s.num('energyJ');
  if (energyJ <= mostJ) return fine(subject);
  return found({
    level: 'hazard',
    subject,
    what: `${called(view)} would have to swallow ${energyJ < 100 ? two(energyJ) : Number(energyJ.toPrecision(2))} J in a load dump of ${volts(dumpV(facts))}${clampingNote(facts)}; it stands ${two(mostJ)} J and then fails as a short.`,
    todo: unclampedTodo(facts) ?? `Fit a clamp that does not conduct below ${volts(dumpV(facts))}, and parts that stand that.`,
    figures: [
      { label: 'energy of the dump', value: energyJ, unit: 'J' },
      { label: 'energy it stands', value: mostJ, unit: 'J' },
    ],
  });
}

function judgeConverter(facts: Facts, c: ReturnType<typeof converters>[number], clamps: readonly PartView[]): Verdict {
  const subject = part(c.view.part.id);
  const absMaxV = c.load.absMaxV;
  const seenV = facts.seenSurgeV(c.inKey);
  if (absMaxV === null || MARGIN * absMaxV >= seenV) return fine(subject);
  const held = seenV < dumpV(facts);
  const inHand = absMaxV >= seenV ? '; a tenth should be kept in hand' : '';
  return found({
    level: 'hazard',
    subject,
    related: clamps.map((v) => part(v.part.id)),
    what: held
      ? `${called(c.view)} stands ${volts(absMaxV)} for a moment, but the clamp ahead lets a load dump rise to ${volts(seenV)}; a tenth should be kept in hand.`
      : `${called(c.view)} stands ${volts(absMaxV)} for a moment and no clamp that counts stands ahead; a load dump brings ${volts(seenV)}${clampingNote(facts)}${inHand}.`,
    todo: (held ? null : unclampedTodo(facts)) ?? `Fit a converter that stands ${volts(Math.ceil(seenV / MARGIN))} or more.`,
    figures: [
      { label: 'converter stands', value: absMaxV, unit: 'V' },
      { label: 'surge that arrives', value: seenV, unit: 'V' },
    ],
  });
}

function clampRepairs(finding: Finding, facts: Facts): Repair[] {
  const fit = usualClamp(facts);
  const brMinV = Number(fit?.brMinV ?? 0);
  const repairs: Repair[] = [];
  if (fit && dumpV(facts) <= brMinV) repairs.push(typing(finding.subject.id, fit, `Fit a ${fit.standoffV} V clamp`, true));
  const view = facts.parts.get(finding.subject.id);
  const answered =
    view && view.s.num('standoffV') >= cornersOf(facts).jumpV && clampEnergyJ(view, facts.corners.dumpClampedV, cornersOf(facts)) <= view.s.num('energyJ');
  return answered ? [...repairs, ...answerClamping(facts)] : repairs;
}

function converterRepairs(finding: Finding, facts: Facts): Repair[] {
  const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
  if (!c) return [];
  const seenV = facts.seenSurgeV(c.inKey);
  const answered = MARGIN * (c.load.absMaxV ?? 0) >= facts.corners.dumpClampedV ? answerClamping(facts) : [];
  return [...answered, ...swapConverter(facts, c, (x) => MARGIN * x.absMaxV >= seenV)];
}

/** The clamp of the guarded supply, without its way of facing: does not conduct below a clamped load dump. */
function usualClamp(facts: Facts): Values | null {
  const row = partSets.get('supply')?.parts.find((p) => p.kind === 'surge-clamp');
  if (!row) return null;
  const { bidirectional: _kept, ...figures } = setPartSettings(row, facts.plan.vehicle.systemV);
  return figures;
}
