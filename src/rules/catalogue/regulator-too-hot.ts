import type { Facts } from '../../analysis/factsTypes.ts';
import type { Edit, Plan } from '../../plan/types.ts';
import { BEYOND } from '../beyond.ts';
import { amps, called, defineRule, part, three, two, verdicts, volts } from '../defineRule.ts';
import { inputMostV, ownHeat } from '../ownHeat.ts';
import { type Converter, converters, outputA } from '../rails.ts';
import { change } from '../taps.ts';
import type { Level, Verdict } from '../types.ts';

const { fine, found } = verdicts('regulator-too-hot', 'C4');
/** A junction above this is destroyed or cuts out; below the first a linear regulator lives long (L7800 data sheet, read). */
const LIMIT_C = 115;
const DESTROYED_C = 150;

export const regulatorTooHot = defineRule({
  id: 'regulator-too-hot',
  code: 'C4',
  level: 'hazard',
  title: 'Linear regulator burning the difference',
  why: 'A linear regulator turns every volt it takes away into heat. From 14 V to 5 V that is nearly twice what the load uses.',
  source: { text: '7805 data sheet (read): junction 125 °C, 54 to 65 K/W without a heat sink', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) => converters(facts).flatMap((c) => (c.view.kind.kind === 'linear-regulator' ? judge(facts, c) : [])),
  repair: (finding, facts) => {
    const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
    if (!c) return [];
    const title = 'Fit a step-down converter in its place';
    return [{ title, safe: false, edit: (plan) => replaced(plan, facts, c, title) }];
  },
});

function judge(facts: Facts, c: Converter): Verdict[] {
  const { heatA } = outputA(facts, c);
  if (heatA < 1e-4) return [];
  const s = c.view.s;
  const { watt, hotC } = ownHeat(facts, c);
  const limitC = Math.min(LIMIT_C, s.num('tjMaxC') - 10);
  const subject = part(c.view.part.id);
  if (hotC <= limitC) return [fine(subject)];
  const beyond = hotC > BEYOND.hotC;
  const burns = `${called(c.view)} burns ${two(watt)} W at ${volts(inputMostV(facts, c))} in and ${amps(heatA)} out: at ${c.view.runningMaxC} °C`;
  const level: Level = hotC > DESTROYED_C ? 'hazard' : 'fault';
  return [
    found({
      level,
      subject,
      what: beyond
        ? `${burns} around it, it passes its limit of ${three(s.num('tjMaxC'))} °C long before it comes to rest, and shuts down or fails.`
        : `${burns} around it that makes ${three(hotC)} °C inside, and ${three(limitC)} °C is the most to plan for.`,
      todo: 'Use a step-down converter; a linear regulator is for some tens of milliamps.',
      figures: [
        { label: 'power burnt', value: watt, unit: 'W' },
        beyond ? { label: 'junction may get', value: s.num('tjMaxC'), unit: '°C' } : { label: 'junction', value: hotC, unit: '°C' },
      ],
      state: 'RUN_CHARGING',
      band: 'high',
    }),
  ];
}

/** The part becomes a step-down converter; returns of what it feeds move from its ground to the new 0 V terminal. */
function replaced(plan: Plan, facts: Facts, c: Converter, title: string): Edit | null {
  const old = plan.parts[c.view.part.id];
  if (!old) return null;
  const fed = new Set([...facts.reach(c.outKey, ['fuse', 'contact', 'conductor', 'resistor']).keys()].map((k) => k.split('.')[0]));
  return change(plan, 'part.replace', title, (draft) => {
    draft.setPart({ ...old, kind: 'step-down', settings: {} });
    for (const row of Object.values(plan.wires)) {
      // Sizes behind it go back to automatic: a converter can push more than a regulator.
      const guarded = facts.analysis.wires[row.id]?.protection;
      const behind = guarded && [guarded.from.byPart, guarded.to.byPart].includes(c.view.part.id);
      const { areaMm2, ...free } = row;
      const w = behind ? free : row;
      if (behind && areaMm2 !== undefined) draft.setWire(w);
      for (const side of ['from', 'to'] as const) {
        const far = side === 'from' ? w.to : w.from;
        if (w[side].part !== old.id || w[side].terminal !== 'gnd' || !fed.has(far.part)) continue;
        draft.setWire({ ...w, [side]: { part: old.id, terminal: '0v' } });
      }
    }
  });
}
