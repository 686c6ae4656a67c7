import type { Facts } from '../../analysis/factsTypes.ts';

/** When a line of the checklist is looked at: before any tool is picked up, with the wires in hand, before panels close, at the end. */
export type ChecklistMoment = 'before' | 'wiring' | 'closing' | 'handing over';

/**
 * What becomes of a catalogue entry that has no rule file of its own. Entries with a rule need no line: the rule's code
 * is its line, unless a plan shows only a part of what the entry asks. Together they must name every entry once, which a test demands.
 */
export type Account =
  /** What no drawing can show: a line to tick on the wiring sheet, with the entry's own cautions. */
  | {
      readonly code: string;
      readonly how: 'checklist';
      /** The sheet groups its lines by this. */
      readonly when: ChecklistMoment;
      /** One imperative sentence for the person at the vehicle. */
      readonly line: string;
      /** Why it is not computed. */
      readonly reason: string;
      /** The rule that judges what of the entry a plan does show; the line is for the rest. */
      readonly beside?: string;
      /** Printed only where the plan has what it speaks of; absent = always. */
      applies?(facts: Facts): boolean;
    }
  /** Judged inside the rule of another entry. */
  | { readonly code: string; readonly how: 'in rule'; readonly rule: string; readonly reason: string }
  | { readonly code: string; readonly how: 'left out'; readonly reason: string };
