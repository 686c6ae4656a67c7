import type { Results } from '../advise/types.ts';
import type { PressedMoment } from '../analysis/pressed.ts';
import type { EventReport, KeyCycle, ParkedWeeks, Scenario, Spread, WorstMargin } from '../analysis/time/types.ts';
import type { KeyPosition } from '../analysis/types.ts';
import type { Alternative, Band, Edit, Id, Plan } from '../plan/types.ts';
import type { Scene } from '../scene/types.ts';

export interface Selection {
  readonly parts: readonly Id[];
  readonly wires: readonly Id[];
}

/** One plan kept in this browser. */
export interface PlanEntry {
  readonly id: string;
  readonly title: string;
  /** Last change, milliseconds since 1970. */
  readonly changed: number;
  readonly alternative?: Alternative;
}

/** Figures that take their time: one turn of the key, worst seconds in hand, parked weeks, spread over tolerances, events of the supply. */
export type TimeTask = 'cycle' | 'margins' | 'weeks' | 'spread' | 'events';

/** One such figure: it is computed while somebody watches it, again after every change of the plan. */
export interface Timed<R> {
  /** The last result; it stays while a newer one is computed. A spread grows while it is busy. */
  readonly result: R | null;
  /** The plan object the result belongs to; older than `plan` until the newest one is done. */
  readonly resultFor: Plan | null;
  readonly busy: boolean;
  /** Share of the running calculation that is done, 0..1. */
  readonly share: number;
  readonly error: string | null;
  /** Counts how often it was asked for anew. */
  readonly asked: number;
}

/** The moment in which buttons are held down: of which plan object, and which buttons. */
export interface Momentary {
  readonly moment: PressedMoment;
  readonly resultFor: Plan;
  readonly pressed: readonly Id[];
}

/** A message for the person. */
export interface Notice {
  readonly text: string;
  readonly kind: 'info' | 'problem';
  readonly action?: NoticeAction;
  readonly also?: readonly NoticeAction[];
  /** There is something to read and to think about: it stays until it is closed. */
  readonly stays?: true;
}

/** Something to do about a message. */
export interface NoticeAction {
  readonly label: string;
  run(): void;
}

/** The one store of the app (zustand). Faces read slices by selector and call actions; nothing else changes state. */
export interface AppState {
  // --- plan and undo
  readonly plan: Plan | null;
  readonly past: readonly Edit[];
  readonly future: readonly Edit[];
  /** Apply an edit as one undo entry; refused edits return their reason and change nothing. */
  apply(edit: Edit): { readonly ok: true } | { readonly ok: false; readonly reason: string };
  undo(): void;
  redo(): void;
  /** Replace the plan (open, new, demo): undo starts afresh. */
  load(plan: Plan, past?: readonly Edit[]): void;
  close(): void;

  // --- a drag in hand: a provisional plan, never stored, never in undo
  readonly provisional: Plan | null;
  setProvisional(plan: Plan | null): void;

  // --- results of the worker for `plan` (or the provisional plan)
  readonly results: Results | null;
  /** The plan object `results` belong to; older than `plan` while the worker is busy. */
  readonly resultsFor: Plan | null;
  readonly busy: boolean;
  /** Are `results` first ones, whose second look (the worst corners over tolerances) is still to come? */
  readonly looking: boolean;
  readonly workerError: string | null;

  // --- in time, of `plan` (a plan in the middle of a drag is not computed)
  readonly cycle: Timed<KeyCycle> & { /** Moments of the turn of the key; the plan's own until the person moves one. */ readonly scenario: Scenario };
  /** Per computer: the worst of three bands, door opened at once or never. */
  readonly margins: Timed<readonly WorstMargin[]>;
  readonly weeks: Timed<ParkedWeeks>;
  readonly spread: Timed<Spread>;
  /** What surges, dips and a reversed supply do to the parts. */
  readonly events: Timed<readonly EventReport[]>;
  /** A face that shows a task calls this when it appears; the task is computed until the returned function is called. */
  watch(task: TimeTask): () => void;
  /** How many faces watch each task. */
  readonly watched: Readonly<Record<TimeTask, number>>;
  /** Moves moments of the turn of the key; null = the plan's own again. Order and least distances are kept. */
  setScenario(patch: Partial<Scenario> | null): void;
  /** Stops what is computed now: its last result stays. It starts again at the next change, or with `again`. */
  cancel(task: TimeTask): void;
  /** Computes a task anew although nothing has changed: after `cancel` or an error. */
  again(task: TimeTask): void;

  // --- view
  readonly selection: Selection;
  select(selection: Selection): void;
  /** Part or wire being pointed at from the ledger (lights up on the canvas). */
  readonly pointed: Selection;
  point(selection: Selection): void;
  readonly keyPosition: KeyPosition;
  setKey(key: KeyPosition): void;
  readonly band: Band;
  setBand(band: Band): void;
  /** Push buttons that the person holds down; never part of the plan. */
  readonly pressed: readonly Id[];
  /** Presses a button, or lets it go when it is down. */
  press(button: Id): void;
  /** Lets go of every button. */
  letGo(): void;
  /** What the worker says of that moment; see `shownAnalysis`. */
  readonly momentary: Momentary | null;
  readonly showFigures: boolean;
  setShowFigures(on: boolean): void;
  readonly theme: 'light' | 'dark' | 'contrast' | 'contrast-dark';
  setTheme(theme: AppState['theme']): void;
  readonly units: { readonly area: 'mm2' | 'awg'; readonly length: 'm' | 'ft' };
  setUnits(units: AppState['units']): void;
  /** The rule book: null closed, '' its list, else the rule that is read. */
  readonly book: string | null;
  setBook(rule: string | null): void;
  /** Id of the plan that the open one is compared with; null = none. */
  readonly comparing: string | null;
  setComparing(plan: string | null): void;
  /** Kind or set in the hand, dragged or armed from the shelf. */
  readonly placing: { readonly type: 'part' | 'set'; readonly id: string /** One of the kind's ready-made settings. */; readonly variant?: string } | null;
  setPlacing(placing: AppState['placing']): void;
  /** A wire being drawn from this terminal. */
  readonly wiringFrom: { readonly part: Id; readonly terminal: string } | null;
  setWiringFrom(end: AppState['wiringFrom']): void;
  /** Message for the person: what happened and what to do; null = none. */
  readonly notice: Notice | null;
  setNotice(notice: AppState['notice']): void;

  // --- storage
  /** `behind`: another tab's work is kept under this plan, and this one's is not. */
  readonly saved: 'saved' | 'saving' | 'failed' | 'off' | 'behind';
  /** When the open plan was last saved as a file or read from one, ms since 1970 (null = never), and the edits since. */
  readonly copied: { readonly at: number | null; readonly edits: number };
  /** Plans kept in this browser, last changed first. */
  readonly plans: readonly PlanEntry[];
  /** False until storage has been asked for the last opened plan: before that, an absent plan means nothing yet. */
  readonly started: boolean;
  /** Camera: world point at the middle of the surface and zoom. */
  readonly camera: { readonly x: number; readonly y: number; readonly zoom: number };
  setCamera(camera: AppState['camera']): void;
  /** Last drawn scene (of the plan or the provisional plan). */
  readonly scene: Scene | null;
  setScene(scene: Scene): void;
}
