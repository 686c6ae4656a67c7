import type { Facts } from '../../analysis/factsTypes.ts';
import { ENGINE_OFF_SHARE } from '../../trade/standing.ts';
import { amps, defineRule, part, plain, two, verdicts } from '../defineRule.ts';
import { joined } from '../parkedShare.ts';
import { cutOutRepair, unguardedHeatA, vehicleTaps } from '../standing.ts';
import type { Subject } from '../types.ts';

const { fine, found, unknown } = verdicts('long-use-engine-off', 'G3');
/** A day and a night: what may run for so long needs no question. */
const DAY_H = 24;

export const longUseEngineOff = defineRule({
  id: 'long-use-engine-off',
  code: 'G3',
  level: 'advice',
  title: 'Used too long with the engine off',
  why: 'A starting battery is made for short, strong bursts. Used for hours like a lamp battery it ages fast, and on a cold day what is left does not turn the engine.',
  source: { text: 'A fifth of the capacity between charges (practice)', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => {
    if (!joined(facts)) return [];
    const subject: Subject = { kind: 'plan', id: facts.plan.id };
    const { batteryAh, engineOffH } = facts.plan.vehicle;
    const amp = unguardedA(facts);
    const allowedAh = ENGINE_OFF_SHARE * batteryAh;
    if (amp * DAY_H <= allowedAh) return [fine(subject)];
    if (engineOffH === undefined) return [unknown(subject, 'for how many hours at a time the build is used with the engine off')];
    const usedAh = amp * engineOffH;
    if (usedAh <= allowedAh) return [fine(subject)];
    return [
      found({
        level: 'advice',
        subject,
        related: vehicleTaps(facts).map((t) => part(t.view.part.id)),
        what: `${plain(engineOffH)} h with the engine off at ${amps(amp)} take ${two(usedAh)} Ah; ${two(allowedAh)} Ah of the ${plain(batteryAh)} Ah are the most before the next drive, ${two(allowedAh / amp)} h of it.`,
        todo: 'Shorten it, dim the display, fit a low-voltage cut-out, or give the build a battery of its own.',
        figures: [
          { label: 'taken', value: usedAh, unit: 'Ah' },
          { label: 'allowed', value: allowedAh, unit: 'Ah' },
          { label: 'hours allowed', value: allowedAh / amp, unit: 'h' },
        ],
        state: 'RUN_STOPPED',
        band: 'low',
      }),
    ];
  },
  repair: (_, facts) => {
    const heaviest = [...vehicleTaps(facts)].sort((a, b) => unguardedHeatA(facts, b) - unguardedHeatA(facts, a))[0];
    // One cut-out is enough where what is left without one stays within the limit.
    const { batteryAh, engineOffH = 0 } = facts.plan.vehicle;
    const rest = heaviest ? unguardedA(facts) - unguardedHeatA(facts, heaviest) : 0;
    return heaviest && rest * engineOffH <= ENGINE_OFF_SHARE * batteryAh ? cutOutRepair(facts, heaviest) : [];
  },
});

/** Heating current of the build that no cut-out ends, A. */
function unguardedA(facts: Facts): number {
  return vehicleTaps(facts, (line) => line !== '50').reduce((sum, t) => sum + unguardedHeatA(facts, t), 0);
}
