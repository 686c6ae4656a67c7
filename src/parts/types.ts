import type { Device, Element } from '../circuit/types.ts';
import type { Side, SymbolDrawing } from '../drawing/types.ts';
import type { Band, ColourCode, Line, Part, Value, Values, Vehicle, VehicleState } from '../plan/types.ts';

export type Group = 'Feeds' | 'Protect' | 'Switch' | 'Convert' | 'Sense' | 'Compute' | 'Sound and picture' | 'Join';

/** What one setting is. The codec, the settings card and the JSON Schema are all built from these. */
export type Setting = SettingBase &
  (
    | {
        readonly type: 'number';
        readonly unit: string;
        readonly default: number;
        readonly min: number;
        readonly max: number /** preferred values offered first */;
        readonly stocked?: readonly number[];
      }
    | { readonly type: 'choice'; readonly default: string; readonly options: readonly { readonly value: string; readonly label: string }[] }
    | { readonly type: 'flag'; readonly default: boolean }
    | { readonly type: 'text'; readonly default: string; readonly maxLength: number }
  );
interface SettingBase {
  readonly key: string;
  /** What the person reads, e.g. "Output set to". */
  readonly label: string;
  /** Where the default comes from: source and grade in a few words. */
  readonly basis: string;
  /** True when advise/ chooses the value while it is not typed (fuse rating, sense resistor ...). */
  readonly automatic?: boolean;
  /** One plain sentence for a beginner. */
  readonly help?: string;
  /** Shown under "More". */
  readonly rare?: boolean;
}

/** The physical thing the hand meets. */
export type TerminalForm = 'ring' | 'blade' | 'screw' | 'crimp' | 'header' | 'usb' | 'jack' | 'video' | 'lead' | 'socket' | 'splice';

/**
 * Forms that mate two conductors at once. Such a terminal has a companion node `id~0` beside `id`: 0 V of a USB shell,
 * screen of an audio jack or video plug. A wire between two of them is a cable: both conductors are joined.
 */
export const PAIRED_FORMS: ReadonlySet<TerminalForm> = new Set<TerminalForm>(['usb', 'jack', 'video']);

/** What the terminal is for: used by colours, sensible ends, pins and rules. */
export type TerminalRole =
  | 'supply' // vehicle-side positive
  | 'rail5' // 5 V positive
  | 'rail3' // 3.3 V
  | 'ground'
  | 'signal' // logic or sensing
  | 'coil'
  | 'audio'
  | 'audio-ground'
  | 'video'
  | 'video-ground'
  | 'usb-data'
  | 'any';

export interface TerminalDef {
  readonly id: string;
  /** Printed number or short name: `87`, `+`, `K`, `17`. */
  readonly label: string;
  readonly title: string;
  readonly side: Side;
  readonly form: TerminalForm;
  readonly role: TerminalRole;
  /** Must be wired for the part to work. */
  readonly required?: boolean;
  /** Direction of power for "sensible ends" and drawing order. */
  readonly flow?: 'in' | 'out';
  /** Ground is where it is meant to go, but it may stand elsewhere: alone it makes no net a ground. */
  readonly groundElsewhere?: true;
  /** Nominal volts when fixed by the part itself (5 at a converter output). */
  readonly nominalV?: number;
}

/** Everything a part may look at when it says how it behaves. */
export interface Situation {
  readonly state: VehicleState;
  readonly band: Band;
  readonly vehicle: Vehicle;
  /** Open-circuit supply of this state and band, V. */
  readonly supplyV: number;
  /** Temperature of the part's zone in this band, degrees C. */
  readonly ambientC: number;
  /** Is a vehicle line live in this state? */
  live(line: Line): boolean;
  /** 'heavy' in the low band, 'typical', 'light' in the high band. */
  readonly load: 'heavy' | 'typical' | 'light';
  /** State of one of this part's own devices, by local id. */
  on(localDevice: string): boolean;
  /** Is this terminal joined to anything? */
  wired(terminal: string): boolean;
  /** Buttons held down by the person at the screen. */
  readonly pressed: boolean;
}

/**
 * Elements and devices of one part. Node names: a terminal id; `~name` for a node inside the part;
 * `@battery` (battery positive post), `@0` (battery negative post), `@chassis` (the zone's chassis bar).
 * Element and device ids are local; analysis prefixes them with the part id and a colon.
 */
export interface Behaviour {
  readonly elements: readonly Element[];
  readonly devices?: readonly Device[];
}

/** How current may pass between two terminals, for tracing without solving. */
export interface Link {
  readonly a: string;
  readonly b: string;
  readonly type: 'join' | 'fuse' | 'contact' | 'diode' | 'resistor' | 'conductor' | 'clamp' | 'capacitor' | 'coil';
  /** Fuse rating, A. */
  readonly ratingA?: number;
  readonly ohm?: number;
  /** Contact: the states in which it can be closed ("no" = normally open, closed when energised; "nc"). */
  readonly contact?: 'no' | 'nc' | 'manual';
  /** Contacts of one changeover share a group; only one of them is closed at a time. */
  readonly group?: string;
}

/** Where current can come from, for protection tracing. */
export interface SourceFact {
  readonly terminal: string;
  /** Terminal or `@0` it returns to. */
  readonly returns: string;
  readonly kind: 'battery' | 'feed' | 'converter' | 'rail' | 'usb' | 'pin' | 'audio' | 'store';
  readonly nominalV: number;
  /** Greatest current it can give for ever, A; null = limited only by fuse and resistance (battery, feed). */
  readonly limitA: number | null;
  /** True when limitA is an assumption (1.5 x rating). */
  readonly limitAssumed?: boolean;
  /** Source resistance for least and greatest prospective short-circuit current, ohm. */
  readonly maxOhm: number;
  readonly minOhm: number;
  /** Vehicle fuse ahead of it; counts as protection only when read at the vehicle. */
  readonly donorFuseA?: number;
  readonly donorFuseRead?: boolean;
  readonly line?: Line;
  /** Fed by one battery of a series pair, at half the system voltage: by that one alone, or shared by an equaliser with the other. */
  readonly half?: 'alone' | 'shared';
}

/** A thing that draws current and wants a voltage, for "what arrives", loads and windows. */
export interface LoadFact {
  readonly plus: string;
  readonly minus: string;
  readonly label: string;
  readonly nominalV: number;
  /** Working window; null = no limit known. */
  readonly minV: number | null;
  readonly maxV: number | null;
  /** What supply it must stand without damage. */
  readonly absMaxV: number | null;
  /** Largest current lasting >= 1 ms, A at nominal. */
  readonly peakA: number;
  /** Heating (rms over 60 s) current, A at nominal. */
  readonly heatA: number;
}

export interface PartFacts {
  readonly links?: readonly Link[];
  readonly sources?: readonly SourceFact[];
  readonly loads?: readonly LoadFact[];
  /** Terminal pairs that mind polarity: plus must never be below minus. */
  readonly polar?: readonly {
    readonly plus: string;
    readonly minus: string;
    readonly what: string /** stands a reversed supply, V (positive number) */;
    readonly reverseV?: number;
  }[];
  /** Terminal is the vehicle's (tap); feeds and battery posts. */
  readonly tap?: { readonly terminal: string; readonly line: Line; readonly what: string };
  /** Energy store, J, for the rule that a store needs its own fuse. */
  readonly storeJ?: number;
}

/** A part kind: data plus pure functions. One file each; `definePart` checks it and the index lists it. */
export interface PartKind {
  readonly kind: string;
  readonly title: string;
  readonly group: Group;
  /** One sentence for a beginner: what it is and why one wants it. */
  readonly about: string;
  /** Words people may search for. */
  readonly words?: readonly string[];
  readonly owner?: 'vehicle';
  /** Letter(s) of its item number on the sheet: F fuse, K relay, R resistor (IEC 81346 classes where one fits). */
  readonly letter: string;
  readonly settings: readonly Setting[];
  /** Ready-made settings offered on the shelf, e.g. the converter classes; the first is the default. */
  readonly variants?: readonly { readonly id: string; readonly title: string; readonly settings: Values }[];
  terminals(s: Settings): readonly TerminalDef[];
  symbol(s: Settings, terminals: readonly TerminalDef[]): SymbolDrawing;
  behave(s: Settings, situation: Situation): Behaviour;
  facts(s: Settings): PartFacts;
  /** One short line under the name on the drawing, e.g. "12 -> 5.12 V 6 A". */
  subtitle?(s: Settings): string;
  /** A line for the parts list with ratings that must not be lowered. */
  spec(s: Settings): string;
  /** What to measure with a meter here at bring-up. */
  meterPoints?(s: Settings): readonly { readonly plus: string; readonly minus: string; readonly what: string }[];
  /** Default colour role of wires that leave a terminal, when the role alone does not say. */
  colour?(terminal: string): ColourCode | undefined;
}

/** Settings with defaults filled in; getters throw on an unknown key (programmer misuse). */
export interface Settings {
  num(key: string): number;
  str(key: string): string;
  flag(key: string): boolean;
  /** Was the value typed (or fitted) rather than default? */
  typed(key: string): boolean;
  readonly values: Values;
}

/** A set: a fragment that drops as one and stays ordinary parts. Positions are relative to the drop point. */
export interface SetDef {
  readonly id: string;
  readonly title: string;
  readonly about: string;
  readonly words?: readonly string[];
  readonly parts: readonly {
    readonly key: string;
    readonly kind: string;
    readonly x: number;
    readonly y: number;
    readonly turn?: Part['turn'];
    readonly name?: string;
    readonly settings?: Readonly<Record<string, Value>>;
    /** Laid over `settings` when the vehicle is a 24 V one. */
    readonly settings24?: Readonly<Record<string, Value>>;
  }[];
  readonly wires: readonly {
    readonly from: readonly [key: string, terminal: string];
    readonly to: readonly [key: string, terminal: string];
    readonly lengthM?: number;
  }[];
}
