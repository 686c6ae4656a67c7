import type { Facts } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import type { Plan } from '../../plan/types.ts';
import { nearestPreferred } from '../../trade/preferred.ts';
import { type as typeIn } from '../build.ts';
import { bridged, type CrankDip, crankDip, sureShare } from '../crankDip.ts';
import { called, defineRule, part, plain, two, verdicts, volts } from '../defineRule.ts';
import { swapConverter } from '../fixes.ts';
import { type Converter, converters, feedsComputer } from '../rails.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('dip-not-bridged', 'C9');
/** Largest electrolytic that is offered as a bridge, F (makers' catalogues, from memory). */
const MOST_F = 0.033;

export const dipNotBridged = defineRule({
  id: 'dip-not-bridged',
  code: 'C9',
  level: 'fault',
  title: 'Not enough store for the dip it must bridge',
  why: 'When the starter takes hold the supply falls for some hundredths of a second, then stays low for a second or ten. A capacitor can bridge the first; nothing but a wider converter or a large store gets over the second.',
  source: { text: 'ISO 16750-2 starting profiles; C = 2 P t / (V1² − V2²); a fifth less capacitance at −30 °C from practice', grade: 'standard' },
  needs: 'readings',
  check: (facts) =>
    converters(facts).flatMap((c) => {
      // What feeds nothing yet has nothing to bridge.
      const dip = facts.isWired(c.outKey) ? crankDip(facts, c) : null;
      return dip ? [judge(facts, c, dip)] : [];
    }),
  repair: (finding, facts) => {
    const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
    const dip = c && crankDip(facts, c);
    return c && dip ? repairs(facts, c, dip) : [];
  },
});

function judge(facts: Facts, c: Converter, d: CrankDip): Verdict {
  const subject = part(c.view.part.id);
  if (d.carried || (d.troughV >= d.needV && bridged(d))) return fine(subject);
  const { dipLevel } = facts.plan.vehicle;
  // A camera or a lamp may blink while the engine starts; a computer may not.
  const level = feedsComputer(facts, c) ? 'fault' : 'advice';
  if (d.troughV < d.needV) {
    return found({
      level,
      subject,
      what: `While the starter turns, ${called(c.view)} gets ${volts(d.troughV)} for ${plain(d.plateauS)} s at dip level ${dipLevel} and needs ${volts(d.needV)}: no capacitor bridges that at ${two(d.watt)} W.`,
      todo: 'Fit a converter that works from fewer volts, or a store large enough for the whole start.',
      figures: [
        { label: 'arrives on the plateau', value: d.troughV, unit: 'V' },
        { label: 'needed at the input', value: d.needV, unit: 'V' },
      ],
      state: 'START',
      band: 'low',
    });
  }
  const have =
    d.capacitors.length === 0
      ? 'nothing stands there'
      : d.blocked
        ? `${micro(d.sureF)} is sure to be there`
        : 'what stands there runs back into the starter, for nothing lets current one way only';
  return found({
    level,
    subject,
    related: d.capacitors.map((v) => part(v.part.id)),
    what: `In the first dip of level ${dipLevel} ${called(c.view)} gets ${volts(d.dipV)} and needs ${volts(d.needV)}; to bridge ${plain(1e3 * d.dipS)} ms at ${two(d.watt)} W takes ${micro(upToTwo(d.needF))}, and ${have}.`,
    todo: 'Fit a larger capacitor behind a series diode, or a converter that works from fewer volts.',
    figures: [
      { label: 'arrives in the dip', value: d.dipV, unit: 'V' },
      { label: 'needed at the input', value: d.needV, unit: 'V' },
      { label: 'capacitance needed', value: d.needF, unit: 'F' },
      { label: 'capacitance sure', value: d.sureF, unit: 'F' },
    ],
    state: 'START',
    band: 'low',
  });
}

/** The next amount of two figures, not below: what is needed is no less for being rounded. */
function upToTwo(farad: number): number {
  const step = 10 ** (Math.floor(Math.log10(farad)) - 1);
  return Math.ceil(farad / step - 1e-9) * step;
}

function micro(farad: number): string {
  return `${plain(1e6 * farad)} µF`;
}

function repairs(facts: Facts, c: Converter, d: CrankDip): Repair[] {
  const seenV = facts.seenSurgeV(c.inKey);
  const wider = swapConverter(facts, c, (x) => Math.min(d.dipV, d.troughV) >= Math.max(x.stopV, x.setV + x.dropV) && 0.9 * x.absMaxV >= seenV);
  const bulk = [...d.capacitors].sort((a, b) => b.s.num('farad') - a.s.num('farad'))[0];
  if (!bulk || !d.blocked || d.troughV < d.needV || !Number.isFinite(d.needF)) return wider;
  const others = d.sureF - bulk.s.num('farad') * sureShare(bulk);
  const farad = nearestPreferred((d.needF - others) / sureShare(bulk), 'E6', 'up');
  if (farad > MOST_F) return wider;
  return [
    {
      title: `Fit ${micro(farad)} at ${called(bulk)}`,
      safe: true,
      edit: (plan: Plan) => {
        const draft = new Draft(plan);
        typeIn(draft, bulk.part.id, { farad });
        return draft.edit('repair.apply', 'Bridge the dip');
      },
    },
    ...wider,
  ];
}
