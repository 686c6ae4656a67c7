import { useEffect, useMemo, useState } from 'react';
import type { KeyCycle, Scenario } from '../analysis/time/types.ts';
import { partKinds } from '../parts/index.ts';
import { sameRow } from '../plan/equal.ts';
import type { Id, Plan } from '../plan/types.ts';
import { app, useApp } from '../state/store.ts';
import { type MomentId, moved, untilOf } from './moments.ts';

/** A dragged moment is computed when the hand has rested so long, ms. */
const REST_MS = 60;

/** The person's name of a part, or its kind's title. */
export function nameIn(plan: Plan): (part: Id) => string {
  return (id) => {
    const part = plan.parts[id];
    return part?.name ?? partKinds.get(part?.kind ?? '')?.title ?? id;
  };
}

export interface CycleInHand {
  readonly cycle: KeyCycle | null;
  /** The moments as they stand, also in the middle of a drag. */
  readonly scenario: Scenario;
  /** The result belongs to an older plan or to other moments. */
  readonly isStale: boolean;
  /** A move has not been asked for yet. */
  readonly moving: boolean;
  move(id: MomentId, tS: number): void;
  change(patch: Partial<Scenario>): void;
}

/**
 * The key cycle of the plan while a face shows it: for the supply chosen on the screen, long enough to show its end.
 * @param held a moment is in the hand: what was moved stays provisional when the hand rests
 */
export function useCycle(plan: Plan, held: boolean): CycleInHand {
  // One by one: how far a calculation is changes many times a second.
  const kept = useApp((s) => s.cycle.scenario);
  const result = useApp((s) => s.cycle.result);
  const resultFor = useApp((s) => s.cycle.resultFor);
  const band = useApp((s) => s.band);
  const [draft, setDraft] = useState<Scenario | null>(null);

  useEffect(() => app.getState().watch('cycle'), []);
  useEffect(() => {
    const untilS = untilOf(plan, kept);
    if (kept.band !== band || Math.abs(kept.untilS - untilS) > 0.05) app.getState().setScenario({ band, untilS });
  }, [plan, kept, band]);

  // What was moved is computed once the hand rests, and no longer a draft once it lets go.
  useEffect(() => {
    if (!draft) return;
    const rest = setTimeout(() => {
      if (!sameRow(draft, app.getState().cycle.scenario)) app.getState().setScenario(draft);
      if (!held) setDraft(null);
    }, REST_MS);
    return () => clearTimeout(rest);
  }, [draft, held]);

  return useMemo(() => {
    const scenario = draft ?? kept;
    return {
      cycle: result,
      scenario,
      moving: draft !== null,
      isStale: resultFor !== plan || !result || !sameRow(result.scenario, scenario),
      move: (id, tS) => setDraft((was) => moved(plan, was ?? kept, id, tS)),
      change: (patch) => app.getState().setScenario({ ...patch, untilS: untilOf(plan, { ...kept, ...patch }) }),
    };
  }, [plan, kept, draft, result, resultFor]);
}
