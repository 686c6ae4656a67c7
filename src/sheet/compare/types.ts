import type { Results } from '../../advise/types.ts';
import type { Unlike } from '../../advise/unlike.ts';
import type { WorstMargin } from '../../analysis/time/types.ts';
import type { Id } from '../../plan/types.ts';
import type { Level } from '../../rules/types.ts';

/** One wiring with everything that is known of it. */
export interface Side {
  /** `A`, `B` ... */
  readonly letter: string;
  readonly results: Results;
  /** Least seconds in hand of each computer; null = still being worked out. */
  readonly margins: readonly WorstMargin[] | null;
}

/** One line of figures. */
export interface Pair {
  readonly label: string;
  readonly one: string;
  readonly other: string;
  /** The two are not the same. */
  readonly differs: boolean;
}

/** What is bought, on either side, by the words of the parts list. */
export interface Goods {
  readonly what: string;
  readonly unit: 'pieces' | 'metres';
  readonly one: number;
  readonly other: number;
}

/** A part or a wire that is not the same in both. */
export interface Difference {
  readonly table: 'parts' | 'wires';
  readonly id: Id;
  /** Only in the one, only in the other, or in both and not alike. */
  readonly where: 'one' | 'other' | 'both';
  /** "F1 Blade fuse", "W12 from ... to ..." */
  readonly name: string;
  /** What is not alike: rating, 5 A, 3 A. Empty when it is only in one of them. */
  readonly how: readonly Unlike[];
}

/** A finding by the words of its card. */
export interface FoundLine {
  readonly level: Level;
  readonly title: string;
  /** Names of what it speaks of. */
  readonly at: readonly string[];
}

export interface Comparison {
  readonly letters: { readonly one: string; readonly other: string };
  /** Headline figures, in the order in which they are read. */
  readonly figures: readonly Pair[];
  readonly goods: readonly Goods[];
  readonly differences: readonly Difference[];
  readonly findings: { readonly one: readonly FoundLine[]; readonly other: readonly FoundLine[]; readonly both: readonly FoundLine[] };
}
