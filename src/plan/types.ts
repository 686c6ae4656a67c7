/**
 * The plan: one build in one vehicle. Immutable plain data; what is absent from a part's settings or a wire is
 * *automatic* and is worked out by advise/ with a reason. SI inside, units in names.
 */
import type { Band, ColourCode, DipLevel, VehicleState, ZoneKind } from '../trade/words.ts';

/** Short unique id inside one plan, e.g. `p7`, `w12`, `z2`, `r1`. */
export type Id = string;

/** A setting as it is stored: number in SI, text, or yes/no. */
export type Value = number | string | boolean;
export type Values = Readonly<Record<string, Value>>;

export type Owner = 'vehicle' | 'build';

export type { Band, ColourCode, DipLevel, Line, VehicleState, ZoneKind } from '../trade/words.ts';

/** Yes, no, or "I don't know: assume the worst". */
export type Known = 'yes' | 'no' | 'unknown';

export interface Vehicle {
  readonly name: string;
  readonly systemV: 12 | 24;
  readonly polarity: 'negative-ground' | 'positive-ground' | 'unknown';
  readonly batteryAh: number;
  /** Load dump clamped inside the alternator. */
  readonly centralClamping: Known;
  /** Cranking dip level of ISO 16750-2 to design for. */
  readonly dipLevel: DipLevel;
  /** Draw of the sleeping vehicle itself, A. */
  readonly parkedA: number;
  /** Days the vehicle is meant to stand. */
  readonly standingDays: number;
  readonly stopStart: boolean;
  readonly remoteStart: boolean;
  readonly electrified: boolean;
  readonly isolator: boolean;
  /** Hours for which the build is used with the engine off, at the most; absent = nobody has said. */
  readonly engineOffH?: number;
  /** A current sensor sits on the battery's negative post. Absent = nobody has said. */
  readonly batterySensor?: Known;
  /** Mean temperature of the battery while the vehicle stands, degrees C; absent = 25, at which self-discharge is stated. */
  readonly parkedC?: number;
  /** Supply voltage overrides per state, V; absent = the table of trade/. */
  readonly supplyV?: Readonly<Partial<Record<VehicleState, Readonly<Record<Band, number>>>>>;
}

export interface Zone {
  readonly id: Id;
  readonly name: string;
  readonly kind: ZoneKind;
  /** Position from left to right on the drawing, 0, 1, 2 ... */
  readonly order: number;
  /** Width on the drawing in drawing units; null = as wide as its parts need. */
  readonly width: number | null;
  /** Upper planning temperature when the person knows better than the kind's default, degrees C. */
  readonly maxC?: number;
  readonly minC?: number;
  /** Does an airbag or a belt tensioner unfold through here, or lie behind this trim? Absent = nobody has said. */
  readonly bag?: Known;
}

/** A cable way between two zones. */
export interface Run {
  readonly id: Id;
  readonly a: Id;
  readonly b: Id;
  readonly lengthM: number;
  /** What bends here each time: a hinge, or a cab or column that tilts; absent = nothing moves. */
  readonly moving?: Moving;
}

export type Moving = 'hinge' | 'tilt';

export interface Part {
  readonly id: Id;
  readonly kind: string;
  readonly owner: Owner;
  readonly zone: Id;
  /** Top left corner inside its zone, drawing units (multiples of 10). */
  readonly x: number;
  readonly y: number;
  /** Quarter turns clockwise. */
  readonly turn: 0 | 1 | 2 | 3;
  /** The person's own name; absent = the kind's title. */
  readonly name?: string;
  /** Typed settings only; absent = automatic or default. */
  readonly settings: Values;
  readonly fitted?: boolean;
  readonly note?: string;
  /** Number within its letter, the 2 of `F2`; absent = in the order of making. */
  readonly item?: number;
}

export interface End {
  readonly part: Id;
  readonly terminal: string;
}

/** Place of a bend, drawing units. */
export interface Bend {
  /** From the left edge of its zone; of the whole drawing when it has none (older editions). */
  readonly x: number;
  /** From the top of the drawing. */
  readonly y: number;
  /** It goes where this zone goes. */
  readonly zone?: Id;
}

export interface Wire {
  readonly id: Id;
  readonly owner: Owner;
  readonly from: End;
  readonly to: End;
  /** All of the following: absent = automatic. */
  readonly number?: number;
  readonly areaMm2?: number;
  readonly colour?: ColourCode;
  readonly stripe?: ColourCode;
  readonly lengthM?: number;
  /** Insulation class, degrees C; absent = 105. */
  readonly insulationC?: number;
  /** Own tube or sleeve over the wire. */
  readonly sleeved?: boolean;
  /** Fine strands in a tube and a loop to spare where the way moves. */
  readonly looped?: boolean;
  /** Bends the person has dragged, in order; absent = routed. */
  readonly bends?: readonly Bend[];
  readonly fitted?: boolean;
  readonly note?: string;
}

/** Stages of the job, in the order in which they are gone through. */
export type Stage = 'find' | 'draw' | 'buy' | 'wire' | 'test' | 'software' | 'keep';

/** Thresholds and habits that a person may change; absent = default of the rule with its basis. */
export type Thresholds = Readonly<Record<string, number>>;

export interface Plan {
  readonly format: 'dashloom-plan';
  readonly version: 1;
  readonly id: string;
  /** This plan is a second wiring beside another. Absent = it is the first, wiring A. */
  readonly alternative?: Alternative;
  readonly title: string;
  readonly note: string;
  readonly vehicle: Vehicle;
  readonly zones: Readonly<Record<Id, Zone>>;
  readonly runs: Readonly<Record<Id, Run>>;
  readonly parts: Readonly<Record<Id, Part>>;
  readonly wires: Readonly<Record<Id, Wire>>;
  readonly thresholds: Thresholds;
  /** Facts and findings the person has answered or set aside, by key, with the reason. */
  readonly setAside: Readonly<Record<string, string>>;
  /** Where the person stands in the job: decides which findings speak. Absent = `draw`. */
  readonly stage?: Stage;
  /** Lines of the job that are done (bought, tried, set up, kept), by stable key. What is fitted stands on parts and wires. */
  readonly ticks?: Readonly<Record<string, true>>;
  /** What was removed and keeps its number for good. Absent = nothing yet. */
  readonly gone?: Gone;
  /** Numbers that any wiring of this plan has given. Absent = there is one wiring only. */
  readonly given?: Given;
  /** States of the build to which people go back, by `v1`, `v2` ... Absent = none yet. */
  readonly revisions?: Readonly<Record<Id, Revision>>;
  /** Next free serial for new ids; only grows, so that ids and numbers are never reused. */
  readonly nextSerial: number;
}

/** Where a further wiring of the same plan belongs: it is a plan of its own, kept beside the first. */
export interface Alternative {
  /** Id of the first plan. */
  readonly of: string;
  /** `B`, `C` ...; the first plan is `A`. */
  readonly letter: string;
}

/** Removed wires and parts by id: their numbers are not given again, and nothing behind them moves up. */
export interface Gone {
  /** The number that was typed or fixed; 0 = it stood in the order of making. */
  readonly wires: Readonly<Record<Id, number>>;
  readonly parts: Readonly<Record<Id, GonePart>>;
}
/** `item`: as typed or fixed; absent = it stood in the order of making. */
export type GonePart = Pick<Part, 'kind' | 'item'>;

/**
 * Which wire or part has had a number in any wiring of the plan, so that no other gets it in any of them. Not part of the
 * head: undo takes no number back.
 */
export interface Given {
  /** Wire by its number. */
  readonly wires: Readonly<Record<string, Id>>;
  /** Part by its number, by letter: `F`, then the 2 of `F2`. */
  readonly items: Readonly<Record<string, Readonly<Record<string, Id>>>>;
  /** Serials below this were in use when the plan was copied: after undo they are not given again. */
  readonly serial: number;
}

/** The build as it was on a day, with every automatic value as it was then. */
export interface Revision {
  readonly id: Id;
  /** 1, 2, 3 ...; never given twice. */
  readonly number: number;
  /** `2025-03-04` */
  readonly date: string;
  readonly note: string;
  /** Absent = let go to make room: number, date and note stay. */
  readonly was?: Was;
}

/** What a revision keeps. Facts and limits are absent in revisions of older editions: those cannot tell whether they changed. */
export type Was = Tables & Partial<Pick<Plan, 'vehicle' | 'thresholds'>>;

/** The rows of a plan without anything else. */
export type Tables = Pick<Plan, 'zones' | 'runs' | 'parts' | 'wires'>;

/** One change of one row of one table; `null` = the row is not there. */
export type Change =
  | { readonly table: 'parts'; readonly id: Id; readonly before: Part | null; readonly after: Part | null }
  | { readonly table: 'wires'; readonly id: Id; readonly before: Wire | null; readonly after: Wire | null }
  | { readonly table: 'zones'; readonly id: Id; readonly before: Zone | null; readonly after: Zone | null }
  | { readonly table: 'runs'; readonly id: Id; readonly before: Run | null; readonly after: Run | null }
  | { readonly table: 'revisions'; readonly id: Id; readonly before: Revision | null; readonly after: Revision | null }
  | { readonly table: 'head'; readonly before: Head; readonly after: Head };

/** The plan's single-valued fields, changed together. */
export type Head = Pick<Plan, 'title' | 'note' | 'vehicle' | 'thresholds' | 'setAside' | 'stage' | 'ticks' | 'gone' | 'nextSerial'>;

/** A plain value: JSON, invertible by swapping before and after in reverse order. */
export interface Edit {
  /** Dotted intent, e.g. `part.move`, `wire.add`, `repair.apply`. */
  readonly intent: string;
  /** What a person reads beside undo: "Move Hold relay". */
  readonly label: string;
  readonly changes: readonly Change[];
}
