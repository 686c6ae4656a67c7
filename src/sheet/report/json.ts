import type { Results } from '../../advise/types.ts';
import { limitAhead } from '../../analysis/fuseLimit.ts';
import type { EventReport } from '../../analysis/time/types.ts';
import type { EndProtection, Reading, ReadingIndex } from '../../analysis/types.ts';
import { type Context, contextOf, wireName } from '../context.ts';
import { countsOf } from './counts.ts';

/** JSON has no NaN and no infinity: a figure that does not exist, and one without limit, are null. */
type Figure = number | null;

/**
 * Everything computed, as plain JSON. Volts are to battery negative, amps along a wire positive from -> to; SI units,
 * named in the keys. The shape is described in DEVELOPERS.md; `version` grows when a key changes its meaning.
 * @param played events of the supply, for the plan that the results belong to
 */
export function reportJson(results: Results, played: readonly EventReport[]): object {
  const context = contextOf(results);
  const { analysis, report, reasons } = results;
  return {
    format: 'dashloom-report',
    version: 1,
    plan: { id: context.plan.id, title: context.plan.title, vehicle: context.plan.vehicle },
    summary: countsOf(results),
    parts: [...context.views.values()].map((v) => ({ id: v.part.id, item: v.item, name: v.name, kind: v.kind.kind, owner: v.part.owner, zone: v.part.zone })),
    wires: wires(context),
    readings: analysis.readings.map((r) => readingJson(analysis.index, r)),
    design: readingJson(analysis.index, analysis.design),
    fuses: fuses(context),
    arrivals: analysis.arrivals.map((a) => ({ ...a, typical: a.typical.map(figure) })),
    parked: finite(analysis.parked),
    loads: analysis.loads.map((l) => ({ ...l, amps: l.amps.map(figure), watts: l.watts.map(figure) })),
    pins: analysis.pins.map((p) => ({ ...p, volts: p.volts.map(figure) })),
    events: played.map(eventJson),
    dependsOnHistory: analysis.dependsOnHistory,
    findings: report.findings,
    setAside: report.aside.map(({ card, reason }) => ({ key: card.key, rule: card.rule, code: card.code, level: card.level, reason })),
    cannotTell: report.cannotTell,
    notApplicable: report.notApplicable,
    crashed: report.crashed,
    automatic: reasons,
  };
}

/** Behind a converter no short is the vehicle's: the limit stands in its place. */
function fuses(context: Context): object[] {
  const { analysis } = context.results;
  return Object.values(analysis.fuses).map((report) => {
    const limit = limitAhead(context.plan, analysis, report.part);
    return { ...finite(report), ...(limit ? { greatestShortA: null } : {}), limitA: limit?.maxA ?? null, limitedBy: limit?.byPart ?? null };
  });
}

function wires(context: Context): object[] {
  return Object.values(context.results.analysis.wires).flatMap((report) => {
    const wire = context.plan.wires[report.id];
    if (!wire) return [];
    const { id, protection, ...figures } = report;
    return [
      {
        id,
        name: wire.owner === 'build' ? wireName(wire) : null,
        owner: wire.owner,
        from: wire.from,
        to: wire.to,
        colour: wire.colour ?? null,
        stripe: wire.stripe ?? null,
        ...finite(figures),
        protection: { from: end(protection.from), to: end(protection.to) },
      },
    ];
  });
}

function end(p: EndProtection): object {
  return { maxA: figure(p.maxA), unlimited: p.maxA === Number.POSITIVE_INFINITY, byPart: p.byPart, byName: p.byName };
}

/** The supply's own curve is told by its least and most. */
function eventJson({ supply, stress, ...event }: EventReport): object {
  return { ...event, leastV: figure(Math.min(...supply.volts)), mostV: figure(Math.max(...supply.volts)), stress: stress.map(finite) };
}

function readingJson(index: ReadingIndex, reading: Reading): object {
  return {
    state: reading.state,
    band: reading.band,
    status: reading.status,
    trouble: reading.trouble,
    waiting: reading.waiting,
    terminalV: byName(index.terminals, reading.terminalV),
    wireA: byName(index.wires, reading.wireA),
    elementA: byName(index.elements, reading.elementA),
    deviceOn: Object.fromEntries(index.devices.map((name, i) => [name, reading.deviceOn[i] === 1])),
  };
}

function byName(names: readonly string[], values: Float64Array): Record<string, Figure> {
  return Object.fromEntries(names.map((name, i) => [name, figure(values[i] ?? Number.NaN)]));
}

function figure(value: number): Figure {
  return Number.isFinite(value) ? value : null;
}

/** A flat row with every number made fit for JSON. */
function finite(row: object): object {
  return Object.fromEntries(Object.entries(row).map(([key, value]) => [key, typeof value === 'number' ? figure(value) : value]));
}
