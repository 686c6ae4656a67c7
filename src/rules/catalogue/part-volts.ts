import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { settingsOf } from '../../parts/definePart.ts';
import type { LoadFact } from '../../parts/types.ts';
import type { Values } from '../../plan/types.ts';
import { called, defineRule, part, plain, verdicts, volts } from '../defineRule.ts';
import { answerClamping, typing } from '../fixes.ts';
import { clampingNote, dumpV, unclampedTodo, vehicleRail } from '../rails.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('part-volts', 'A15');

export const partVolts = defineRule({
  id: 'part-volts',
  code: 'A15',
  level: 'hazard',
  title: 'Part not made for the voltage of its line',
  why: 'A vehicle of 12 V stands at up to 16 V, one of 24 V at up to 32 V, day after day; and once in a while there is a surge on top. A part made for less than that dies of it, sometimes with smoke. One made for more than its line has does nothing at all.',
  source: { text: 'ISO 16750-2: 16 V and 32 V for ever, 18 V and 36 V for an hour, load dump (read); limits as set for the part', grade: 'standard' },
  needs: 'readings',
  always: true,
  check: (facts) => [...placed(facts).map((p) => judge(facts, p)), ...underfed(facts)],
  repair: (finding, facts) => {
    const p = placed(facts).find((x) => x.view.part.id === finding.subject.id);
    return p ? mend(facts, p) : [];
  },
});

/** Above it a line is the vehicle's, V. */
const LINE_V = 6;
/** A part that needs so many times the volts of its line is on the wrong one; less is a matter of wires. */
const NEAR = 1.2;

interface Placed {
  readonly view: PartView;
  readonly load: LoadFact;
  readonly key: string;
  /** Fed by one battery of a pair: half of every figure. */
  readonly share: number;
}

/** Parts that wait for more than a line of 5 V or 3.3 V has. */
function underfed(facts: Facts): Verdict[] {
  return facts.loads.flatMap(({ view, load }) => {
    const lineV = facts.nominalV(facts.netAt(view.part.id, load.plus));
    const wired = [load.plus, load.minus].every((t) => facts.isWired(`${view.part.id}.${t}`));
    // On the vehicle's own volts other rules look at what arrives.
    if (!wired || load.minV === null || !lineV || lineV >= LINE_V || lineV > load.minV / NEAR) return [];
    return [
      found({
        level: 'fault',
        subject: part(view.part.id),
        what: `${called(view)} needs ${volts(load.minV)} or more, and hangs on a line of ${plain(lineV)} V: it never starts.`,
        todo: `Feed it from ${load.minV > LINE_V ? 'the vehicle’s supply behind its fuse' : 'a line that has more'}, or take one made for ${plain(lineV)} V.`,
        figures: [
          { label: 'needs', value: load.minV, unit: 'V' },
          { label: 'line', value: lineV, unit: 'V' },
        ],
      }),
    ];
  });
}

/** Parts with a load on the vehicle's own volts; converters are another rule's. Of several loads of a part the weakest. */
function placed(facts: Facts): Placed[] {
  const rail = vehicleRail(facts);
  return [...facts.parts.values()].flatMap((view) => {
    if (view.facts.sources?.some((s) => s.kind === 'converter')) return [];
    const here = (view.facts.loads ?? []).flatMap((load) => {
      const key = `${view.part.id}.${load.plus}`;
      const way = rail.get(key);
      return way && standsV(load) !== null ? [{ view, load, key, share: way.tap.source.half ? 0.5 : 1 }] : [];
    });
    return here.sort((a, b) => standsV(a.load)! - standsV(b.load)!).slice(0, 1);
  });
}

function standsV(load: LoadFact): number | null {
  return load.absMaxV ?? load.maxV;
}

/** The most that stands on the line for ever, for an hour, and for a moment, V. */
function lineV(facts: Facts, p: Placed): { readonly hiV: number; readonly longV: number; readonly surgeV: number } {
  return { hiV: p.share * facts.corners.hiV, longV: p.share * facts.corners.longV, surgeV: p.share < 1 ? 0 : facts.seenSurgeV(p.key) };
}

type Outcome = 'fine' | 'destroyed' | 'beyond' | 'surge' | 'hour' | 'unknown';

function outcome(facts: Facts, p: Placed, load: LoadFact = p.load, typed = p.view.s.values.absMaxV !== undefined): Outcome {
  const stands = standsV(load)!;
  const { hiV, longV, surgeV } = lineV(facts, p);
  if (stands < hiV) return 'destroyed';
  if (load.maxV !== null && load.maxV < hiV) return 'beyond';
  if (load.absMaxV === null) return 'fine';
  if (stands < surgeV) return typed ? 'surge' : 'unknown';
  return stands < longV ? 'hour' : 'fine';
}

function judge(facts: Facts, p: Placed): Verdict {
  const subject = part(p.view.part.id);
  const { hiV, longV, surgeV } = lineV(facts, p);
  const stands = standsV(p.load)!;
  const is = outcome(facts, p);
  const name = called(p.view);
  // A part with one supply is called like it.
  const input = p.load.label === p.view.name ? name : `${name} (${p.load.label})`;
  const figures = (reaches: number) => [
    { label: 'stands', value: is === 'beyond' ? p.load.maxV! : stands, unit: 'V' },
    { label: 'reaches it', value: reaches, unit: 'V' },
  ];
  switch (is) {
    case 'fine':
      return fine(subject);
    case 'unknown':
      return unknown(subject, `what ${name} stands for a moment: a load dump brings ${volts(surgeV)}, and ${volts(stands)} are only assumed`);
    case 'destroyed':
      return found({
        level: 'hazard',
        subject,
        what: `${input} stands ${volts(stands)}, and this line is at up to ${volts(hiV)} for ever.`,
        todo: `Fit one made for ${plain(facts.plan.vehicle.systemV)} V, or feed it from a converter.`,
        figures: figures(hiV),
      });
    // It stands what comes, and only does not promise to work: no hazard, where its absolute limit is known.
    case 'beyond':
      return found({
        level: 'fault',
        subject,
        what: `${input} works up to ${volts(p.load.maxV!)}, and this line is at up to ${volts(hiV)} for ever.`,
        todo: `Fit one made for ${plain(facts.plan.vehicle.systemV)} V, or feed it from a converter.`,
        figures: figures(hiV),
      });
    case 'surge':
      return found({
        level: 'hazard',
        subject,
        what: `${name} stands ${volts(stands)}, and a load dump brings ${volts(surgeV)} to it${clampingNote(facts)}.`,
        todo: (surgeV >= dumpV(facts) ? unclampedTodo(facts) : null) ?? 'Fit one that stands more, or feed it from behind a converter.',
        figures: figures(surgeV),
      });
    case 'hour':
      return found({
        level: 'advice',
        subject,
        what: `${name} stands ${volts(stands)}; with a failed regulator the supply is at ${volts(longV)} for an hour.`,
        todo: `Take one that stands ${volts(longV)} or more.`,
        figures: figures(longV),
      });
  }
}

/** A ready-made version of the same part that stands it; else the answer about the alternator where that is all. */
function mend(facts: Facts, p: Placed): Repair[] {
  const { kind, part: row, s } = p.view;
  const settingsWith = (more: Values) => settingsOf(kind, { ...s.values, ...more });
  const fits = (kind.variants ?? []).find((v) => {
    const load = kind.facts(settingsWith(v.settings)).loads?.find((l) => l.plus === p.load.plus);
    return load !== undefined && outcome(facts, p, load, true) === 'fine';
  });
  if (fits) return [typing(row.id, fits.settings, `Fit: ${fits.title}`, false)];
  const answers = outcome(facts, p) === 'surge' && standsV(p.load)! >= facts.corners.dumpClampedV ? answerClamping(facts) : [];
  return answers;
}
