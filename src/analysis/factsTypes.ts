import type { Link, LoadFact, PartFacts, PartKind, Settings, SourceFact, TerminalDef } from '../parts/types.ts';
import type { Band, Id, Part, Plan, VehicleState, Wire } from '../plan/types.ts';
import type { Analysis, Reading } from './types.ts';

/** A part with everything about it at hand. */
export interface PartView {
  readonly part: Part;
  readonly kind: PartKind;
  readonly s: Settings;
  readonly terminals: readonly TerminalDef[];
  readonly facts: PartFacts;
  /** The person's name or the kind's title. */
  readonly name: string;
  /** Item number, e.g. F2. */
  readonly item: string;
  /** Upper and lower planning temperatures (soaked), and upper while running, degrees C. */
  readonly maxC: number;
  readonly minC: number;
  readonly runningMaxC: number;
}

/** `part.terminal` */
export type TerminalKey = string;

/** One step of a trace through the graph. */
export interface Step {
  /** Wire walked, or null when the step went through a part. */
  readonly wire: Wire | null;
  /** Part gone through (its link), or null for a wire. */
  readonly through: PartView | null;
  readonly linkType: string;
  readonly at: TerminalKey;
}

/**
 * All that rules may ask about one filled plan. Pure and deep-frozen. Nets are joined without any element: wires
 * and 'join' links only; fuses, contacts, diodes and resistors separate nets.
 */
export interface Facts {
  /** The plan with every automatic setting filled in. */
  readonly plan: Plan;
  readonly analysis: Analysis;
  readonly parts: ReadonlyMap<Id, PartView>;
  /** Parts of one kind. */
  ofKind(...kinds: string[]): readonly PartView[];

  // --- graph -------------------------------------------------------------------------------------------------
  /** Net number of a terminal. */
  netOf(key: TerminalKey): number;
  /** The same by the two names that make the key. */
  netAt(part: Id, terminal: string): number;
  /** Terminals of a net. */
  netTerminals(net: number): readonly TerminalKey[];
  netWires(net: number): readonly Wire[];
  /** Terminals that one wire or chain of joins connects directly, without this one. */
  joinedTo(key: TerminalKey): readonly TerminalKey[];
  isWired(key: TerminalKey): boolean;
  /** The part and terminal definition behind a key. */
  at(key: TerminalKey): { readonly view: PartView; readonly terminal: TerminalDef } | null;
  /**
   * Terminals reachable from a start through wires, joins and the given link types (any reachable contact state),
   * with the way taken. Stops at link types not listed. Does not pass through converters or other sources.
   * @param avoid links that may not be passed although their type is listed
   */
  reach(from: TerminalKey, through: readonly string[], avoid?: (view: PartView, link: Link) => boolean): ReadonlyMap<TerminalKey, readonly Step[]>;
  /** The shortest way between two terminals by the same rules, or null; ends as soon as it is found. */
  way(from: TerminalKey, to: TerminalKey, through: readonly string[]): readonly Step[] | null;
  /** Nominal volts of a net: 0 ground, 12/24 supply, 5, 3.3, or null. */
  nominalV(net: number): number | null;
  /** Sources (battery posts, feeds, converter outputs, pins ...) whose current can reach this terminal. */
  sourcesFor(key: TerminalKey): readonly { readonly view: PartView; readonly source: SourceFact }[];
  /** Is the net ground (joined to chassis or battery negative through wires and joins)? */
  isGround(net: number): boolean;

  // --- lengths and wires -------------------------------------------------------------------------------------
  wireLengthM(id: Id): number;

  // --- readings ----------------------------------------------------------------------------------------------
  reading(state: VehicleState, band: Band): Reading;
  /** Volts of a terminal to battery negative, or null when floating or not computed. */
  volts(key: TerminalKey, state: VehicleState, band: Band): number | null;
  /** Volts between two terminals. */
  across(plus: TerminalKey, minus: TerminalKey, state: VehicleState, band: Band): number | null;
  /** Amps in a wire, from -> to. */
  wireA(id: Id, state: VehicleState, band: Band): number | null;
  /** Amps through an element of a part. */
  elementA(part: Id, element: string, state: VehicleState, band: Band, port?: string): number | null;
  deviceOn(part: Id, device: string, state: VehicleState, band: Band): boolean;
  /** All readings that were solved. */
  readonly solved: readonly Reading[];
  /** The V_lo design corner, same look-ups. */
  designWireA(id: Id): number | null;
  designAcross(plus: TerminalKey, minus: TerminalKey): number | null;
  designElementA(part: Id, element: string, port?: string): number | null;

  // --- loads, supply -----------------------------------------------------------------------------------------
  /** Load facts with their part. */
  readonly loads: readonly { readonly view: PartView; readonly load: LoadFact }[];
  /** Supply corners of the vehicle, V (trade/supply). */
  readonly corners: {
    readonly loV: number;
    readonly restV: number;
    readonly chargeV: number;
    readonly hiV: number;
    readonly jumpV: number;
    readonly longV: number;
    readonly dumpClampedV: number;
    readonly dumpUnclampedV: number;
    readonly crankDipV: number;
    readonly crankPlateauV: number;
    readonly reverseV: number;
  };
  /** Largest voltage a net on the vehicle side sees in a load dump, after clamps and guards (corrections). */
  seenSurgeV(key: TerminalKey): number;
  /** A threshold of the plan, else the given default. */
  threshold(key: string, fallback: number): number;
}
