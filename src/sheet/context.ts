import type { Results } from '../advise/types.ts';
import type { PartView } from '../analysis/factsTypes.ts';
import type { Reading } from '../analysis/types.ts';
import { bySerial, viewsOf } from '../analysis/views.ts';
import type { End, Id, Plan, Wire } from '../plan/types.ts';
import type { Band, VehicleState } from '../trade/words.ts';

/** One plan's results with look-ups by name, for everything that is printed or listed. */
export interface Context {
  readonly results: Results;
  /** The plan with every automatic value filled in. */
  readonly plan: Plan;
  /** Every part, the vehicle's too, in order of making. */
  readonly views: ReadonlyMap<Id, PartView>;
  /** Parts that this build adds, in order of making. */
  readonly ours: readonly PartView[];
  /** Wires that this build adds, by number. */
  readonly wires: readonly Wire[];
  /** What happened to parts and wires since a revision, in a word, on a list of changes only. */
  readonly happened?: ReadonlyMap<Id, string>;
  /** Volts of a terminal to battery negative; NaN when floating or not computed. */
  volts(part: Id, terminal: string, state: VehicleState, band: Band): number;
  /** Amps along a wire, from -> to; NaN when not computed. */
  wireA(id: Id, state: VehicleState, band: Band): number;
  /** State of a part's own device, typical; null when there is none of that name or it was not computed. */
  deviceOn(part: Id, device: string, state: VehicleState): boolean | null;
  /** "F1 Blade fuse" */
  label(part: Id): string;
  /** "F1 Blade fuse, terminal 2" */
  endLabel(end: End): string;
  zoneName(part: Id): string;
}

export function contextOf(results: Results): Context {
  const { filled: plan, analysis } = results;
  const views = viewsOf(plan);
  const { index, readings } = analysis;
  const terminalAt = new Map(index.terminals.map((key, i) => [key, i]));
  const wireAt = new Map(index.wires.map((id, i) => [id, i]));
  const deviceAt = new Map(index.devices.map((name, i) => [name, i]));
  const reading = (state: VehicleState, band: Band): Reading | undefined => readings.find((r) => r.state === state && r.band === band);
  const label = (id: Id): string => {
    const view = views.get(id);
    return view ? `${view.item} ${view.name}` : id;
  };
  return {
    results,
    plan,
    views,
    ours: [...views.values()].filter((v) => v.part.owner === 'build' && v.kind.owner !== 'vehicle'),
    wires: Object.values(plan.wires)
      .filter((w) => w.owner === 'build')
      .sort((a, b) => (a.number ?? Number.MAX_SAFE_INTEGER) - (b.number ?? Number.MAX_SAFE_INTEGER) || bySerial(a, b)),
    volts: (part, terminal, state, band) => pick(reading(state, band)?.terminalV, terminalAt.get(`${part}.${terminal}`)),
    wireA: (id, state, band) => pick(reading(state, band)?.wireA, wireAt.get(id)),
    deviceOn: (part, device, state) => {
      const at = deviceAt.get(`${part}:${device}`);
      const on = at === undefined ? undefined : reading(state, 'typical')?.deviceOn[at];
      return on === undefined ? null : on === 1;
    },
    label,
    endLabel: (end) => {
      const terminal = views.get(end.part)?.terminals.find((t) => t.id === end.terminal);
      if (!terminal) return `${label(end.part)}, terminal ${end.terminal}`;
      if (terminal.form === 'splice') return label(end.part);
      const where = terminal.form === 'header' ? 'pin ' : 'terminal ';
      return `${label(end.part)}, ${terminal.label === '' ? lowerFirst(terminal.title) : where + terminal.label}`;
    },
    zoneName: (part) => plan.zones[views.get(part)?.part.zone ?? '']?.name ?? '',
  };
}

/** As it stands on the drawing, the lists and the wire's own sleeve: `W12`. */
export function wireName(wire: Wire): string {
  return wire.number === undefined ? wire.id : `W${wire.number}`;
}

/** A number of a part that may or may not have that setting. */
export function numberOf(view: PartView, key: string, otherwise: number): number {
  return view.kind.settings.some((s) => s.key === key && s.type === 'number') ? view.s.num(key) : otherwise;
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function pick(values: Float64Array | undefined, at: number | undefined): number {
  return at === undefined ? Number.NaN : (values?.[at] ?? Number.NaN);
}
