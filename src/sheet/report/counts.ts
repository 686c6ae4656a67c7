import type { Results } from '../../advise/types.ts';
import type { Level } from '../../rules/types.ts';

export interface Counts {
  /** Findings by level, those set aside among them: setting aside does not make a hazard go away. */
  readonly hazards: number;
  readonly faults: number;
  readonly advice: number;
  /** Rules that looked at something. */
  readonly looked: number;
  readonly cannotTell: number;
  /** Of these, subjects on which a rule that can find a hazard could not tell, or rules that failed to run. */
  readonly hazardsUntold: number;
}

export function countsOf(results: Results): Counts {
  const { findings, cannotTell, crashed, looked } = results.report;
  const count = (level: Level): number => findings.filter((f) => f.level === level).length;
  return {
    hazards: count('hazard'),
    faults: count('fault'),
    advice: count('advice'),
    looked,
    cannotTell: cannotTell.length,
    hazardsUntold: cannotTell.filter((c) => c.level === 'hazard').length + crashed.length,
  };
}

/** How the command ends: 1 when a hazard is found; strictly, also where a rule that can find one could not tell. */
export function exitCode(counts: Counts, strict: boolean): 0 | 1 {
  return counts.hazards > 0 || (strict && counts.hazardsUntold > 0) ? 1 : 0;
}
