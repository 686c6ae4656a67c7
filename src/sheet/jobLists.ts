import { fingerprint } from '../advise/fingerprint.ts';
import { jobLine } from '../advise/jobLine.ts';
import type { JobLine, JobLists, JobStage } from '../advise/jobTypes.ts';
import type { Results } from '../advise/types.ts';
import type { Plan } from '../plan/types.ts';
import { bringUp } from './bringUp/steps.ts';
import { type Context, contextOf } from './context.ts';
import { type LengthUnit, lengthText } from './figures.ts';
import { fuseRows, partRows } from './partRows.ts';
import { wireRows, wireToBuy } from './wireRows.ts';

/** The job stage by stage: what is open, what is done. `results` must be those of `plan`. */
export function jobOf(plan: Plan, results: Results, unit: LengthUnit = 'm'): readonly JobStage[] {
  return jobLine(plan, results, jobLists(contextOf(results), unit));
}

/** The lists of the wiring sheet, line by line, as things to tick. */
export function jobLists(context: Context, unit: LengthUnit): JobLists {
  return { buy: [...partLines(context), ...wireLines(context, unit)], test: testLines(context), restore: restoreLines(context), card: cardText(context) };
}

const PARTS = { key: 'parts', title: 'Parts' };
const WIRE = { key: 'wire', title: 'Wire, cut lengths together' };

/** A part that is planned otherwise after it was bought is to be bought again: its figures stand in the key. */
function partLines(context: Context): JobLine[] {
  return partRows(context).map((row) => ({
    keys: row.ids.map((id) => `buy:${id}:${fingerprint(`${row.title}|${row.spec}`)}`),
    text: `${row.ids.length} × ${row.spec === '' || row.spec.toLowerCase().startsWith(row.title.toLowerCase()) ? row.spec || row.title : `${row.title}, ${row.spec}`} (${row.items.join(', ')}).`,
    group: PARTS,
    parts: row.ids,
  }));
}

function wireLines(context: Context, unit: LengthUnit): JobLine[] {
  return wireToBuy(wireRows(context)).map((w) => ({
    keys: [`buy:wire:${fingerprint(`${w.areaMm2}|${w.colour}|${w.insulationC}|${w.metres.toFixed(2)}`)}`],
    text: `${lengthText(w.metres, unit)} of wire ${w.areaMm2} mm² (${w.awg})${w.colour === '' ? '' : `, ${w.colour}`}, ${w.insulationC} °C, in ${w.pieces} ${w.pieces === 1 ? 'piece' : 'pieces'}.`,
    group: WIRE,
    wires: w.wires,
  }));
}

/** A check whose expected reading changes is open again. */
function testLines(context: Context): JobLine[] {
  const seen = new Map<string, number>();
  return bringUp(context).flatMap((step) =>
    step.checks.map((check) => {
      const said = `${step.title}|${check.measure}|${check.expected}`;
      const n = seen.get(said) ?? 0;
      seen.set(said, n + 1);
      return {
        keys: [`test:${fingerprint(n === 0 ? said : `${said}|${n}`)}`],
        text: `${check.measure}: ${check.expected}.`,
        group: { key: step.title, title: step.title },
      };
    }),
  );
}

function restoreLines(context: Context): JobLists['restore'] {
  return context.wires.flatMap((wire) =>
    [wire.from, wire.to].filter((end) => context.views.get(end.part)?.part.owner === 'vehicle').map((end) => ({ wire: wire.id, at: context.endLabel(end) })),
  );
}

/** What would make an owner's card old: the fuses it says to pull, the names, the days. */
function cardText(context: Context): string {
  const { plan, results } = context;
  return JSON.stringify([plan.title, plan.vehicle.name, Math.round(results.analysis.parked.days), fuseRows(context).map((f) => [f.item, f.ratingA, f.zone])]);
}
