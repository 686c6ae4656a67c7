import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { RAIL3 } from '../../trade/logic.ts';
import { called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { insidePull, isRail3, type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { grounded, type Hop, isResistor, netAt, railV, waysFrom } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('series-resistor-too-big', 'E10');
/** Distance that a pressed pin keeps from the threshold, V (common practice, no source). */
const MARGIN_V = 0.2;
const USUAL_OHM = 1000;
const CLOSES: ReadonlySet<string> = new Set(['push-button', 'master-switch', 'optocoupler']);

export const seriesResistorTooBig = defineRule({
  id: 'series-resistor-too-big',
  code: 'E10',
  level: 'fault',
  title: 'Series resistor too big for the pull-up',
  why: 'With the button pressed, the resistor in its wire and the pull-up divide the 3.3 V. If the resistor is not far smaller, the pin never gets low enough to read as pressed.',
  source: { text: 'Levels and pulls of the board maker’s pin tables (read); margin of 0.2 V from practice', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) => pressed(facts).map((p) => judge(p)),
  repair: (finding, facts) => {
    const p = pressed(facts).find((x) => x.use.wire.id === finding.subject.id);
    const one = p?.series[0];
    if (!p || !one || p.series.length !== 1) return [];
    return [{ title: `Make ${called(one)} ${ohms(USUAL_OHM)}`, safe: true, edit: (plan) => setSettings(plan, one.part.id, { ohm: USUAL_OHM }) }];
  },
});

interface Pressed {
  readonly use: PinUse;
  readonly series: readonly PartView[];
  readonly mostOhm: number;
  readonly pullOhm: number;
}

/** Inputs that a contact pulls to ground over resistors, with the pull-up at the pin. */
function pressed(facts: Facts): Pressed[] {
  return pinUses(facts).flatMap((use) => {
    if (!use.mode.startsWith('in')) return [];
    const net = netAt(facts, use.computer, `${use.cell.pin}`);
    const through = (h: Hop): boolean => isResistor(h) || (h.link.type === 'contact' && CLOSES.has(h.views[0]!.kind.kind));
    const ends = (n: number): boolean => grounded(facts, n) || railV(facts, n) !== null;
    const way = [...waysFrom(facts, net, through, ends)].find(([n, w]) => grounded(facts, n) && w.hops.some((h) => h.link.type === 'contact'))?.[1];
    const series = way?.hops.filter(isResistor) ?? [];
    if (series.length === 0) return [];
    const up = pullsOn(facts, new Set([net])).filter((p) => isRail3(p.volt));
    const outside = parallelOhm(
      up.map((p) => p.view),
      'least',
    );
    const pullOhm = 1 / (1 / outside + 1 / insidePull(use, 'up').least);
    if (!Number.isFinite(pullOhm)) return [];
    const mostOhm = series.reduce((sum, h) => sum + 1 / h.views.reduce((s, v) => s + 1 / (v.s.num('ohm') * (1 + v.s.num('tol'))), 0), 0);
    return [{ use, series: series.flatMap((h) => h.views), mostOhm, pullOhm }];
  });
}

function judge({ use, series, mostOhm, pullOhm }: Pressed): Verdict {
  const subject = wire(use.wire.id);
  const volt = (RAIL3.maxV * mostOhm) / (mostOhm + pullOhm);
  const limitV = use.logic.vIlMaxV - MARGIN_V;
  if (volt <= limitV) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(use.computer.part.id), ...series.map((v) => part(v.part.id))],
    what: `Pressed, ${pinName(use)} falls only to ${volts(volt)}: ${listed(series.map(called))} (${ohms(mostOhm)} at the most) against a pull-up of ${ohms(pullOhm)} at the least. It must come below ${volts(limitV)}.`,
    todo: `Use ${ohms(USUAL_OHM)} in the wire.`,
    figures: [
      { label: 'pressed', value: volt, unit: 'V' },
      { label: 'must come below', value: limitV, unit: 'V' },
    ],
  });
}
