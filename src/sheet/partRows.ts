import type { PartView } from '../analysis/factsTypes.ts';
import { limitAhead } from '../analysis/fuseLimit.ts';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { wiresOn } from '../plan/connect.ts';
import type { Id } from '../plan/types.ts';
import { bladeColour } from '../trade/fuses.ts';
import { LINES } from '../trade/lines.ts';
import { type Context, wireName } from './context.ts';

/** Parts of one kind and rating, for buying. */
export interface PartRow {
  readonly ids: readonly Id[];
  readonly items: readonly string[];
  readonly title: string;
  readonly names: readonly string[];
  /** Ratings that must not be lowered. */
  readonly spec: string;
  readonly zones: readonly string[];
  readonly note: string;
}

/** The build's parts; those of one kind with equal ratings share a row. The vehicle's own are never among them. */
export function partRows(context: Context): PartRow[] {
  const rows = new Map<string, PartRow>();
  for (const view of context.ours) {
    const spec = view.kind.spec(view.s);
    const key = `${view.kind.kind}|${spec}`;
    const so = rows.get(key);
    rows.set(key, {
      ids: [...(so?.ids ?? []), view.part.id],
      items: [...(so?.items ?? []), view.item],
      title: view.kind.title,
      names: added(so?.names, view.part.name),
      spec,
      zones: added(so?.zones, context.zoneName(view.part.id)),
      note: added(so?.note ? [so.note] : [], view.part.note).join('; '),
    });
  }
  return [...rows.values()];
}

function added(list: readonly string[] | undefined, text: string | undefined): readonly string[] {
  const so = list ?? [];
  return text === undefined || text === '' || so.includes(text) ? so : [...so, text];
}

/** One place where the build joins the vehicle. */
export interface TapRow {
  readonly part: Id;
  readonly label: string;
  readonly what: string;
  /** Terminal number of DIN 72552 and its name. */
  readonly line: string;
  readonly donorFuse: string;
  readonly wires: readonly string[];
  /** Predicted volts at the six key positions, typical; NaN = dead or floating. */
  readonly volts: readonly number[];
  /** The same once a door has been opened after key-off. */
  readonly doorV: number;
}

export function tapRows(context: Context): TapRow[] {
  const rows: TapRow[] = [];
  for (const view of context.views.values()) {
    const { tap } = view.facts;
    if (!tap) continue;
    const wires = wiresOn(context.plan, view.part.id, tap.terminal).filter((w) => w.owner === 'build');
    if (wires.length === 0) continue;
    const line = LINES[tap.line];
    rows.push({
      part: view.part.id,
      label: `${view.item} ${view.name}`,
      what: tap.what,
      line: line.terminal === line.title ? line.title : `${line.terminal} (${line.title.toLowerCase()})`,
      donorFuse: donorFuse(view),
      wires: wires.map((w) => wireName(w)),
      volts: KEY_POSITIONS.map((k) => context.volts(view.part.id, tap.terminal, k.state, 'typical')),
      doorV: context.volts(view.part.id, tap.terminal, 'RETAIN_DOOR', 'typical'),
    });
  }
  return rows;
}

function donorFuse(view: PartView): string {
  const source = view.facts.sources?.find((s) => s.donorFuseA !== undefined);
  if (source?.donorFuseA === undefined) return '';
  return `${source.donorFuseA} A, ${source.donorFuseRead ? 'read at the vehicle' : 'assumed: read it at the vehicle'}`;
}

/** One fuse of the build. */
export interface FuseRow {
  readonly part: Id;
  readonly item: string;
  readonly name: string;
  readonly ratingA: number;
  readonly body: string;
  readonly spec: string;
  readonly zone: string;
  /** Numbers of the wires it protects. */
  readonly protects: readonly string[];
  readonly heatA: number;
  readonly allowedA: number;
  /** Least current of a hard short at the end of what it guards, A; Infinity where the vehicle drives none. */
  readonly leastShortA: number;
  /** The converter that bounds a short where the vehicle drives none: its item number and greatest current, A. */
  readonly limit: { readonly by: string; readonly maxA: number } | null;
  /** Unfused length ahead of it when it is the first after a tap, m. */
  readonly unfusedM: number | null;
}

export function fuseRows(context: Context): FuseRow[] {
  const { analysis } = context.results;
  return context.ours.flatMap((view) => {
    const report = analysis.fuses[view.part.id];
    if (!report) return [];
    const protects = context.wires.filter((w) => {
      const sides = analysis.wires[w.id]?.protection;
      return sides?.from.byPart === view.part.id || sides?.to.byPart === view.part.id;
    });
    return [
      {
        part: view.part.id,
        item: view.item,
        name: view.name,
        ratingA: report.ratingA,
        body: bladeColour(report.ratingA).name,
        spec: view.kind.spec(view.s),
        zone: context.zoneName(view.part.id),
        protects: protects.map((w) => wireName(w)),
        heatA: report.heatA,
        allowedA: report.allowedA,
        leastShortA: report.leastShortA,
        limit: limitOf(context, view.part.id),
        unfusedM: report.unfusedM,
      },
    ];
  });
}

function limitOf(context: Context, fuse: Id): FuseRow['limit'] {
  const end = limitAhead(context.plan, context.results.analysis, fuse);
  return end && { by: end.byName, maxA: end.maxA };
}

/** One relay of the build: anything with a coil and a contact. */
export interface RelayRow {
  readonly item: string;
  readonly name: string;
  readonly spec: string;
  readonly zone: string;
  /** "30: wires 3, 4" for each terminal. */
  readonly terminals: readonly string[];
}

export function relayRows(context: Context): RelayRow[] {
  return context.ours
    .filter((view) => view.kind.letter === 'K')
    .map((view) => ({
      item: view.item,
      name: view.name,
      spec: view.kind.spec(view.s),
      zone: context.zoneName(view.part.id),
      terminals: view.terminals.map((t) => {
        const numbers = wiresOn(context.plan, view.part.id, t.id).map((w) => wireName(w));
        return `${t.label}: ${numbers.length === 0 ? 'free' : `wire ${numbers.join(', ')}`}`;
      }),
    }));
}
