import { LevelMark } from '../faces/LevelMark.tsx';
import { useApp } from '../state/store.ts';
import { headlineOf } from './Findings.tsx';

/** The answer in one line, with how much was looked at; it says "no hazard found", never more than that. */
export function Headline() {
  const report = useApp((s) => s.results?.report);
  const busy = useApp((s) => s.busy);
  const stale = useApp((s) => s.resultsFor !== (s.provisional ?? s.plan));
  const error = useApp((s) => s.workerError);
  if (error !== null)
    return (
      <div className="headline">
        <h2>The figures could not be worked out</h2>
        <p className="note wrong">{error} Your plan is untouched; undo the last change or try again.</p>
      </div>
    );
  if (!report)
    return (
      <div className="headline">
        <h2>Working it out …</h2>
      </div>
    );
  const levels = report.cards.map((c) => c.level);
  const worst = levels.includes('hazard') ? 'hazard' : levels.includes('fault') ? 'fault' : null;
  const facts = new Set(report.cannotTell.map((c) => `${c.subject.kind}:${c.subject.id}:${c.needs}`)).size;
  return (
    <div className={worst ? `headline ${worst}` : 'headline'}>
      <h2>
        {worst ? <LevelMark level={worst} size={22} /> : null}
        {headlineOf(levels)}
      </h2>
      <p className="note">
        {[
          `${report.looked} looked at`,
          facts > 0 ? `${facts} need a fact` : '',
          report.aside.length > 0 ? `${report.aside.length} set aside` : '',
          busy || stale ? 'working …' : '',
        ]
          .filter((t) => t !== '')
          .join(' · ')}
      </p>
    </div>
  );
}
