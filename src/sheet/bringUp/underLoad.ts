import { KEY_POSITIONS } from '../../analysis/types.ts';
import type { Wire } from '../../plan/types.ts';
import { ohmPerM, TERMINATION_OHM } from '../../trade/conductors.ts';
import { type Context, wireName } from '../context.ts';
import { amps, dropVolts, ohms, volts } from '../figures.ts';
import type { Check } from './signals.ts';

/** A drop smaller than this is not worth a meter, V. */
const LEAST_DROP_V = 0.005;
const MOST_WIRES = 10;

export function groundChecks(context: Context): Check[] {
  return context.wires.flatMap((wire) => {
    const report = context.results.analysis.wires[wire.id];
    if (report?.role !== 'ground' || report.worstA < 0.2) return [];
    const ohm = 2 * TERMINATION_OHM.crimp + report.lengthM * ohmPerM(report.areaMm2, 20);
    return [{ measure: `Wire ${wireName(wire)}, end to end`, expected: ohms(ohm) }];
  });
}

/** Groups whose contacts feed something; those of sensing parts are measured elsewhere. */
const FEEDING: ReadonlySet<string> = new Set(['Protect', 'Switch']);

/** Fuses and closed contacts: millivolts across, engine running. */
export function partDrops(context: Context): Check[] {
  return context.ours.flatMap((view) =>
    (FEEDING.has(view.kind.group) ? (view.facts.links ?? []) : []).flatMap((link) => {
      if (link.type !== 'fuse' && link.type !== 'contact') return [];
      const v = Math.abs(context.volts(view.part.id, link.a, 'RUN_CHARGING', 'typical') - context.volts(view.part.id, link.b, 'RUN_CHARGING', 'typical'));
      // A large difference is an open contact, not a drop.
      if (!(v < 1)) return [];
      return [{ measure: `${view.item} ${view.name}, across`, expected: dropVolts(v) }];
    }),
  );
}

export function wireDrops(context: Context): Check[] {
  const drop = (wire: Wire): number => {
    const [a, b] = [wire.from, wire.to].map((end) => context.volts(end.part, end.terminal, 'RUN_CHARGING', 'typical')) as [number, number];
    return Math.abs(a - b);
  };
  return context.wires
    .map((wire) => ({ wire, v: drop(wire) }))
    .filter(({ v }) => v >= LEAST_DROP_V)
    .sort((a, b) => b.v - a.v)
    .slice(0, MOST_WIRES)
    .map(({ wire, v }) => ({
      measure: `Wire ${wireName(wire)}, end to end`,
      expected: `${dropVolts(v)} at ${amps(Math.abs(context.wireA(wire.id, 'RUN_CHARGING', 'typical')))}`,
    }));
}

export function groundDrops(context: Context): Check[] {
  const seen = new Set<string>();
  return context.results.analysis.arrivals.flatMap((arrival) => {
    const key = `${arrival.part}.${arrival.minus}`;
    if (seen.has(key) || arrival.minus.startsWith('@') || context.views.get(arrival.part)?.part.owner !== 'build') return [];
    seen.add(key);
    const v = context.volts(arrival.part, arrival.minus, 'RUN_CHARGING', 'typical');
    return Number.isNaN(v) ? [] : [{ measure: `${context.label(arrival.part)}, 0 V side`, expected: dropVolts(Math.abs(v)) }];
  });
}

export function arrivalChecks(context: Context): Check[] {
  const running = KEY_POSITIONS.findIndex((k) => k.key === 'Running');
  return context.results.analysis.arrivals.flatMap((a) => {
    if (context.views.get(a.part)?.part.owner !== 'build') return [];
    const typical = a.typical[running] ?? Number.NaN;
    const between = a.worstLow && a.worstHigh ? `, ${volts(a.worstLow.v)} to ${volts(a.worstHigh.v)} at worst` : '';
    const window = a.minV !== null && a.maxV !== null ? `; wants ${volts(a.minV)} to ${volts(a.maxV)}` : '';
    const what = a.label === context.views.get(a.part)?.name ? '' : `: ${a.label}`;
    return [{ measure: `${context.label(a.part)}${what}`, expected: `${volts(typical)}${between}${window}` }];
  });
}

/** Surface of a small resistor above its surroundings, K/W (common practice, no source). */
const RESISTOR_K_PER_W = 150;

export function resistorHeat(context: Context): Check[] {
  return context.ours.flatMap((view) => {
    const link = view.facts.links?.find((l) => l.type === 'resistor' && l.ohm !== undefined && l.ohm > 0);
    if (link?.ohm === undefined) return [];
    const v = context.volts(view.part.id, link.a, 'RUN_CHARGING', 'typical') - context.volts(view.part.id, link.b, 'RUN_CHARGING', 'typical');
    const w = v ** 2 / link.ohm;
    if (!(w >= 0.05)) return [];
    return [{ measure: `${view.item} ${view.name}`, expected: `about ${Math.round(w * RESISTOR_K_PER_W)} °C above its surroundings` }];
  });
}
