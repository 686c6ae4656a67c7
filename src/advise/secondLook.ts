import type { LateFigures } from '../analysis/index.ts';
import type { FindingsReport, Results } from './types.ts';

/** What the second look adds to the first results of a plan. */
export interface SecondLook {
  readonly figures: LateFigures;
  readonly report: FindingsReport;
}

/** First results with what the second look added. Apart from the looking itself, so that the page need not load that. */
export function withSecondLook(first: Results, { figures, report }: SecondLook): Results {
  return { ...first, analysis: { ...first.analysis, ...figures }, report };
}
