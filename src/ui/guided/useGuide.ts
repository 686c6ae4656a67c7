import { useMemo, useState } from 'react';
import type { Guide } from '../../advise/guide/types.ts';
import type { Results } from '../../advise/types.ts';
import { later, useLater } from '../../faces/useLater.ts';
import { jobCode, stagesOf } from '../../ledger/useJob.ts';
import type { Plan } from '../../plan/types.ts';
import { useApp } from '../../state/store.ts';

/** Comes when a guide is shown: the first picture does not wait for it. */
const guideCode = later('The guide', () => import('../../advise/guide/index.ts'));

/** The plan with the results that belong to it, once the rules have all spoken. */
interface Settled {
  readonly plan: Plan;
  readonly results: Results;
}

export interface GuideNow {
  readonly guide: Guide;
  /** The plan that the guide was made for: an offer fits no other. */
  readonly plan: Plan;
  /** The plan has moved on, and the figures have not yet. */
  readonly busy: boolean;
}

/** The guide as it stands; the last one while figures are worked out. Null until there is one. */
export function useGuide(at: string | null): GuideNow | null {
  const plan = useApp((s) => s.plan);
  const results = useApp((s) => (s.provisional === null && !s.looking && s.resultsFor === s.plan ? s.results : null));
  const unit = useApp((s) => s.units.length);
  const [settled, setSettled] = useState<Settled | null>(null);
  if (plan && results && (settled?.plan !== plan || settled.results !== results)) setSettled({ plan, results });
  const [guides, job] = [useLater(guideCode), useLater(jobCode)];
  const guide = useMemo(
    () => (guides && job && settled ? guides.guideOf(settled.plan, settled.results, stagesOf(job, settled.plan, settled.results, unit), at) : null),
    [guides, job, settled, unit, at],
  );
  if (!guide || !settled || settled.plan.id !== plan?.id) return null;
  return { guide, plan: settled.plan, busy: settled.plan !== plan };
}
