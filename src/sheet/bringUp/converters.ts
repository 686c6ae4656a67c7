import type { PartView } from '../../analysis/factsTypes.ts';
import { wiresOn } from '../../plan/connect.ts';
import type { Id } from '../../plan/types.ts';
import { ohmPerM, TERMINATION_OHM } from '../../trade/conductors.ts';
import { supplyV } from '../../trade/supply.ts';
import type { Band } from '../../trade/words.ts';
import { type Context, numberOf, wireName } from '../context.ts';
import { dropVolts, isDead, volts } from '../figures.ts';
import type { Check } from './signals.ts';

/** Filament lamp that stands in for the fuse at the first switching-on, W (common practice, no source). */
export const LAMP_W = 5;
/** Stand-in for the computer on a 5 V output, about 1 A. */
export const DUMMY_OHM = 5.1;

/** A converter with the terminals that matter here. */
interface Converter {
  readonly id: Id;
  readonly item: string;
  readonly name: string;
  readonly view: PartView;
  readonly in: string;
  readonly gnd: string;
  readonly out: string;
  readonly zero: string;
  readonly setV: number;
  readonly tol: number;
  readonly idleA: number;
}

export function converters(context: Context): Converter[] {
  return context.ours.flatMap((view) => {
    const source = view.facts.sources?.find((s) => s.kind === 'converter');
    const input = view.terminals.find((t) => t.flow === 'in' && t.role === 'supply') ?? view.terminals.find((t) => t.id === 'in');
    if (!source || !input) return [];
    const gnd = view.terminals.find((t) => t.role === 'ground' && t.side === input.side) ?? view.terminals.find((t) => t.role === 'ground');
    if (!gnd) return [];
    return [
      {
        id: view.part.id,
        item: view.item,
        name: view.name,
        view,
        in: input.id,
        gnd: gnd.id,
        out: source.terminal,
        zero: source.returns.startsWith('@') ? gnd.id : source.returns,
        setV: numberOf(view, 'setV', source.nominalV),
        tol: numberOf(view, 'setTol', 0),
        idleA: numberOf(view, 'quiescentA', 0),
      },
    ];
  });
}

export function shortChecks(c: Converter): Check[] {
  const name = `${c.item} ${c.name}`;
  return [
    { measure: `${name}: ${labelOf(c, c.in)} to ${labelOf(c, c.gnd)}`, expected: 'above 10 kΩ, climbing' },
    { measure: `${name}: ${labelOf(c, c.out)} to ${labelOf(c, c.zero)}`, expected: 'above 1 kΩ' },
    { measure: `${name}: ${labelOf(c, c.out)} to ${labelOf(c, c.in)}`, expected: 'above 10 kΩ' },
  ];
}

function labelOf(c: Converter, terminal: string): string {
  return c.view.terminals.find((t) => t.id === terminal)?.label ?? terminal;
}

export function lampChecks(context: Context, c: Converter): Check[] {
  const { systemV, dipLevel } = context.plan.vehicle;
  const lampOhm = systemV ** 2 / LAMP_W;
  const batteryV = supplyV(systemV, 'RUN_STOPPED', dipLevel).typical;
  return [
    {
      measure: `${c.item} ${c.name}: input`,
      expected: `battery less up to ${dropVolts(c.idleA * lampOhm)} (${volts(batteryV - c.idleA * lampOhm)} from ${volts(batteryV)})`,
    },
    { measure: `${c.item} ${c.name}: output`, expected: outputText(c) },
  ];
}

function outputText(c: Converter): string {
  return c.tol > 0 ? `${volts(c.setV)} (${volts(c.setV * (1 - c.tol))} to ${volts(c.setV * (1 + c.tol))})` : volts(c.setV);
}

export function dummyChecks(context: Context, c: Converter): Check[] {
  if (c.setV < 4.5 || c.setV > 5.5) return [];
  return wiresOn(context.plan, c.id, c.out).flatMap((wire) => {
    const report = context.results.analysis.wires[wire.id];
    if (wire.owner !== 'build' || !report) return [];
    const wireOhm = 2 * TERMINATION_OHM.crimp + report.lengthM * ohmPerM(report.areaMm2, 20);
    const pathOhm = wireOhm + numberOf(c.view, 'outOhm', 0);
    const v = (c.setV * DUMMY_OHM) / (DUMMY_OHM + pathOhm);
    return [{ measure: `Far end of wire ${wireName(wire)} to ${c.item} ${labelOf(c, c.zero)}`, expected: volts(v) }];
  });
}

/** Lowest volts of a start, or why there are none: a feed that the key takes away, a converter that lets go. */
export function crankChecks(context: Context, c: Converter): Check[] {
  const across = (plus: string, minus: string, band: Band): number => context.volts(c.id, plus, 'START', band) - context.volts(c.id, minus, 'START', band);
  const [inV, outV] = [across(c.in, c.gnd, 'low'), across(c.out, c.zero, 'low')];
  const [usualInV, usualOutV] = [across(c.in, c.gnd, 'typical'), across(c.out, c.zero, 'typical')];
  const input = `${c.item} ${c.name}: lowest input`;
  const output = `${c.item} ${c.name}: lowest output`;
  if (isDead(usualInV)) return [{ measure: input, expected: '0 V: its feed is dead in Start' }];
  // A flat battery has been cut off before: what a sound one gives is measured.
  if (isDead(inV))
    return [
      { measure: input, expected: `about ${volts(usualInV)}` },
      { measure: output, expected: isDead(usualOutV) ? '0 V: it lets go while cranking' : `about ${volts(usualOutV)}` },
    ];
  return [
    { measure: input, expected: `not below ${volts(inV)}` },
    { measure: output, expected: isDead(outV) ? '0 V at worst: it lets go while cranking' : `not below ${volts(outV)}` },
  ];
}
