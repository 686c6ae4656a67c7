import type { Facts } from '../../analysis/factsTypes.ts';
import type { Edit, Id, Plan, Stage } from '../../plan/types.ts';
import type { Subject } from '../../rules/types.ts';
import type { JobStage } from '../jobTypes.ts';
import type { Results } from '../types.ts';

/** What a step may ask about. All of it belongs to one plan. */
export interface Scope {
  readonly plan: Plan;
  readonly results: Results;
  readonly facts: Facts;
  readonly job: readonly JobStage[];
}

/** One thing that must hold before a step counts as done. */
export interface Check {
  readonly text: string;
  readonly met: boolean;
  /** What it looks at, to be shown on the drawing. */
  readonly about: readonly Subject[];
  /** The rule that speaks here; absent = a fact of the wiring. */
  readonly rule?: string;
}

/** What the tool can do for a step, as one entry of undo. */
export interface Offer {
  readonly title: string;
  readonly edit: Edit;
  /** It answers for the person, or changes what was chosen: to be read before it is pressed. */
  readonly ask?: boolean;
}

/** Things that a build may do without. */
export type Wish = 'screen' | 'sound' | 'camera' | 'buttons';

/** One step from a bare vehicle to a build that runs. */
export interface GuideStep {
  readonly id: string;
  readonly stage: Stage;
  readonly title: string;
  /** What to do and why, for a beginner. */
  readonly todo: string;
  readonly why: string;
  /** The same without the offer: which piece of the shelf, and where to. */
  readonly byHand: string;
  /** A build may do without it. */
  readonly wish?: Wish;
  /** Rules whose hazards and faults keep this step open. */
  readonly rules: readonly string[];
  checks(scope: Scope): readonly Check[];
  offer(scope: Scope): Offer | null;
}

/** A step with what was found about it. */
export interface StepState {
  readonly step: GuideStep;
  readonly done: boolean;
  readonly leftOut: boolean;
  readonly checks: readonly Check[];
  readonly offer: Offer | null;
  /** Parts and wires that the step is about. */
  readonly about: { readonly parts: readonly Id[]; readonly wires: readonly Id[] };
}

export interface Guide {
  readonly steps: readonly StepState[];
  /** The step that is read: the first that is open, or the one asked for; null = all are done. */
  readonly current: StepState | null;
  readonly done: number;
  /** Steps of this build, without those left out. */
  readonly total: number;
}
