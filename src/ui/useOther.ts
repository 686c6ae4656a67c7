import { useEffect, useState } from 'react';
import type { Results } from '../advise/types.ts';
import type { WorstMargin } from '../analysis/time/types.ts';
import type { Plan } from '../plan/types.ts';
import { workOutOther } from '../state/otherClient.ts';
import { peekPlan } from '../state/page.ts';

export interface Other {
  readonly plan: Plan | null;
  readonly results: Results | null;
  readonly margins: readonly WorstMargin[] | null;
  /** Why it cannot be compared. */
  readonly problem: string | null;
}

const NOTHING: Other = { plan: null, results: null, margins: null, problem: null };

/** A plan kept in this browser that is not the open one, worked out off the page. */
export function useOther(id: string): Other {
  const [other, setOther] = useState<Other>(NOTHING);
  useEffect(() => {
    let gone = false;
    let end = (): void => undefined;
    setOther(NOTHING);
    const more = (patch: Partial<Other>): void => {
      if (!gone) setOther((so) => ({ ...so, ...patch }));
    };
    void peekPlan(id).then((plan) => {
      if (gone) return;
      if (!plan) {
        more({ problem: 'That wiring could not be read from this browser’s storage.' });
        return;
      }
      more({ plan });
      end = workOutOther(plan, {
        results: (results) => more({ results }),
        margins: (margins) => more({ margins }),
        failed: (message) => more({ problem: `The other wiring could not be worked out: ${message}.` }),
      });
    });
    return () => {
      gone = true;
      end();
    };
  }, [id]);
  return other;
}
