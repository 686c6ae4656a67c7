import type { Bench } from './bench.ts';

/** How the rule book shows one rule: a plan that it flags and one that it passes. A test proves both. */
export interface Example {
  /** Brings at least one finding of the rule. */
  flagged(): Bench;
  /** The rule looks at it and finds nothing. */
  clean(): Bench;
  /** What makes the clean one clean, one short sentence: "The fuse sits 0.12 m from the tap." */
  readonly inOrder: string;
  /** Short names of parts to draw besides those that the finding names. */
  readonly also?: readonly string[];
}
