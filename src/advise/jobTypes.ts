import type { Id, Stage } from '../plan/types.ts';
import type { Subject } from '../rules/types.ts';

/** One thing to do. */
export interface JobEntry {
  /** Stable name of the entry, the same after every change that does not touch it. */
  readonly key: string;
  /** What it is about, to be shown on the plan; null = the plan as a whole. */
  readonly subject: Subject | null;
  /** Its name: "F1 Main fuse", "Wire W3"; '' where the sentence says it. */
  readonly about: string;
  /** What to do, one plain sentence. */
  readonly text: string;
  /** How it is closed. */
  readonly by: Closing;
  readonly done: boolean;
  /** What it is done together with: a zone, a step of trying. */
  readonly group?: Group;
}

export interface Group {
  readonly key: string;
  readonly title: string;
}

export type Closing =
  /** By ticks kept in the plan; `instead`: ticks that begin so are an earlier word on the same thing. */
  | { readonly how: 'tick'; readonly keys: readonly string[]; readonly instead?: string }
  /** By fitting the part or wire it is about. */
  | { readonly how: 'fit' }
  /** By a yes-or-no setting of the part it is about. */
  | { readonly how: 'setting'; readonly setting: string }
  /** By changing the plan: it goes away by itself. */
  | { readonly how: 'plan' };

export interface JobStage {
  readonly stage: Stage;
  readonly entries: readonly JobEntry[];
  /** Entries not done. */
  readonly open: number;
}

/** One line of a list that is ticked by itself. */
export interface JobLine {
  /** Keys that must all be ticked. */
  readonly keys: readonly string[];
  readonly text: string;
  readonly group?: Group;
  /** Parts or wires it stands for: once all are fitted it needs no tick. */
  readonly parts?: readonly Id[];
  readonly wires?: readonly Id[];
}

/** What the printed lists know and the plan does not. */
export interface JobLists {
  readonly buy: readonly JobLine[];
  readonly test: readonly JobLine[];
  /** Wires joined to the vehicle, each with the place. */
  readonly restore: readonly { readonly wire: Id; readonly at: string }[];
  /** What the owner's card says. */
  readonly card: string;
}
