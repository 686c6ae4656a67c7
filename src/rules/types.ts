import type { Facts } from '../analysis/factsTypes.ts';
import type { Band, Edit, Id, Plan, Stage, VehicleState } from '../plan/types.ts';

export type Level = 'hazard' | 'fault' | 'advice';

export interface Subject {
  readonly kind: 'part' | 'wire' | 'plan';
  readonly id: Id;
}

/** A number a finding rests on, so that text, sheet and tests read the same figure. */
export interface Figure {
  readonly label: string;
  readonly value: number;
  readonly unit: string;
}

export interface Finding {
  readonly rule: string;
  readonly code: string;
  readonly level: Level;
  readonly subject: Subject;
  /** Other parts and wires to light up. */
  readonly related: readonly Subject[];
  /** What, with its numbers and units; one or two full sentences. */
  readonly what: string;
  /** What to do, one sentence. */
  readonly todo: string;
  readonly figures: readonly Figure[];
  readonly state: VehicleState | null;
  readonly band: Band | null;
  /** A current that nothing limits flows as long as this stands: what `SWEPT` rules say anywhere rests on it. */
  readonly floods?: true;
  /** Free data for the rule's own repair. */
  readonly data?: Readonly<Record<string, string | number | boolean>>;
}

/** One subject's outcome. A rule that returns no verdict at all does not apply to the plan. */
export type Verdict =
  | { readonly outcome: 'fine'; readonly subject: Subject }
  | { readonly outcome: 'finding'; readonly finding: Finding }
  | { readonly outcome: 'cannot tell'; readonly subject: Subject /** names the missing fact */; readonly needs: string };

export interface Repair {
  readonly title: string;
  /** Safe ones may be applied together; ask-first ones change what the person chose. */
  readonly safe: boolean;
  /** Edits to the plan as it stands; [] when it turns out not to apply. */
  edit(plan: Plan): Edit | null;
}

/** A figure of a rule that practice does not agree on; a person may change it for a plan (`plan.thresholds`). */
export interface Limit {
  /** Key in `plan.thresholds`; rules that share a limit share the key and say the same of it. */
  readonly key: string;
  /** What it limits, as a label: "Fuse from the tap, usual limit". */
  readonly title: string;
  /** `share` is shown in per cent. */
  readonly unit: string;
  /** Default, and the least and the most that is accepted, in `unit`. */
  readonly value: number;
  readonly least: number;
  readonly most: number;
  /** Where the default comes from. */
  readonly basis: string;
}

export interface RuleDef {
  /** Our own plain name, equal to the file name. */
  readonly id: string;
  /** Catalogue reference. */
  readonly code: string;
  /** Worst level it can give. */
  readonly level: Level;
  readonly title: string;
  /** Why it matters, in plain words for a beginner. */
  readonly why: string;
  readonly source: { readonly text: string; readonly grade: 'standard' | 'data sheet' | "fitters' habit" };
  /**
   * What it looks at: the graph, the readings, or figures that take solves of their own (the worst corners over tolerances).
   * A rule that needs solves looks after the others have spoken.
   */
  readonly needs: 'graph' | 'readings' | 'solve';
  /** Figures that a person may change. Every key asked of `facts.threshold` stands here. */
  readonly limits?: readonly Limit[];
  /** Where practitioners disagree: the choices with their reasons, and which one is taken here. */
  readonly disputed?: string;
  /** Rules whose findings on the same subject fold under this one's. */
  readonly explains?: readonly string[];
  /** Stage of the job from which findings below hazard speak; absent = drawing. Only for what matters once one is wiring. */
  readonly stage?: Stage;
  /** True when the thing is wrong even on a half-built part (shorts, reversed, over-voltage). */
  readonly always?: boolean;
  check(facts: Facts): readonly Verdict[];
  repair?(finding: Finding, facts: Facts): readonly Repair[];
}
