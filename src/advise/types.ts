import type { Analysis } from '../analysis/types.ts';
import type { Id, Plan, Stage } from '../plan/types.ts';
import type { Finding, Level, Subject } from '../rules/types.ts';

/** Why an automatic value is what it is. Key: `part:p3.ratingA` or `wire:w7.areaMm2`. */
export type Reasons = Readonly<Record<string, string>>;

/** One card on the ledger: one cause, n subjects. */
export interface Card {
  /** Rule and first subject: stable between runs. */
  readonly key: string;
  readonly rule: string;
  readonly code: string;
  readonly level: Level;
  readonly title: string;
  readonly findings: readonly Finding[];
  /** Findings of other rules explained by this one. */
  readonly folded: readonly Finding[];
}

export interface FindingsReport {
  /** Hazards first, then nearness to the battery. */
  readonly cards: readonly Card[];
  /** All findings, unfolded, same order; those of waiting cards too. */
  readonly findings: readonly Finding[];
  /** Cards that speak from a later stage of the job on; never a hazard. */
  readonly waiting: readonly (Card & { readonly stage: Stage })[];
  /** Cards the person has set aside, with the reason. */
  readonly aside: readonly { readonly card: Card; readonly reason: string }[];
  /** Number of rules that looked at something. */
  readonly looked: number;
  readonly cannotTell: readonly { readonly rule: string; readonly code: string; readonly level: Level; readonly subject: Subject; readonly needs: string }[];
  readonly notApplicable: readonly string[];
  /** Quiet to-do counts per part: loose terminals and open facts. */
  readonly todo: Readonly<Record<Id, readonly string[]>>;
  /** Labels of required terminals that nothing is joined to, per part. */
  readonly loose: Readonly<Record<Id, readonly string[]>>;
  /** Rules that threw, with the message: counted as "cannot tell". */
  readonly crashed: readonly { readonly rule: string; readonly message: string }[];
}

/** Everything computed for one plan: what the worker sends back. */
export interface Results {
  /** The plan with every automatic value filled in. */
  readonly filled: Plan;
  readonly reasons: Reasons;
  readonly analysis: Analysis;
  readonly report: FindingsReport;
}
