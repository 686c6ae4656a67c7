import { STAGE_WORDS } from '../ledger/jobWords.ts';
import { useJob } from '../ledger/useJob.ts';
import { setStage } from '../plan/edits.ts';
import { FIRST_STAGE, STAGES } from '../plan/stages.ts';
import type { Stage } from '../plan/types.ts';
import { app, useApp } from '../state/store.ts';
import './jobLine.css';

/** The seven stages on one thread, each with what is open; choosing one says where the person stands. */
export function JobLine({ onOpen, onGuide }: { onOpen(): void /** Brings the guided build; absent while it is shown. */; onGuide?: (() => void) | undefined }) {
  const at = useApp((s) => s.plan?.stage ?? FIRST_STAGE);
  const stages = useJob();
  return (
    <div className="job-line">
      <nav aria-label="Job line">
        <ol>
          {STAGES.map((stage) => {
            const open = stages?.find((s) => s.stage === stage)?.open;
            return (
              <li key={stage}>
                <button
                  type="button"
                  {...(stage === at ? { 'aria-current': 'step' as const } : {})}
                  onClick={() => {
                    stand(stage);
                    onOpen();
                  }}
                >
                  {STAGE_WORDS[stage].name}
                  {open === undefined ? null : (
                    <span className={open === 0 ? 'job-count none' : 'job-count'}>
                      {open}
                      <span className="hidden-text"> open</span>
                    </span>
                  )}
                </button>
              </li>
            );
          })}
        </ol>
      </nav>
      {onGuide ? (
        <button type="button" className="job-guide" onClick={onGuide}>
          Guide me
        </button>
      ) : null}
    </div>
  );
}

function stand(stage: Stage): void {
  const { plan, apply } = app.getState();
  if (plan && (plan.stage ?? FIRST_STAGE) !== stage) apply(setStage(plan, stage));
}
