import { headline, lookedText } from '../advise/headline.ts';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { LevelMark } from '../faces/LevelMark.tsx';
import { useLasting } from '../faces/useLasting.ts';
import { shownAnalysis } from '../state/shown.ts';
import { useApp } from '../state/store.ts';
import { partName, readingOf } from './lookup.ts';
import { useReport } from './useReport.ts';

/** The answer in one line, with how much was looked at; it says "no hazard found", never more than that. */
export function Headline() {
  const report = useReport();
  const busy = useApp((s) => s.busy);
  const stale = useApp((s) => s.resultsFor !== (s.provisional ?? s.plan));
  const looking = useApp((s) => s.looking) && !stale;
  const isLate = useLasting(looking);
  const works = useLasting((busy || stale) && !looking);
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
  return (
    <div className={worst ? `headline ${worst}` : 'headline'} aria-busy={busy || stale || looking}>
      <h2>
        {worst ? <LevelMark level={worst} size={22} /> : null}
        {report.looked === 0 && levels.length === 0 ? 'Nothing to look at yet' : `${headline(report)}${isLate ? ' so far' : ''}`}
      </h2>
      <Trouble />
      <p className="note">
        {report.looked > 0 ? lookedText(report) : 'Findings appear as soon as something is wired'}
        {isLate ? ' · still looking …' : works ? ' · working …' : ''}
      </p>
    </div>
  );
}

const TROUBLE = {
  'not-converged': 'the figures do not settle',
  singular: 'the circuit has no single answer',
  chatters: 'it switches on and off without end',
  starves: 'the supply cannot start it: it starves and tries again',
} as const;

/** Says when the chosen key position has no figures, and where the cause lies. */
function Trouble() {
  const results = useApp((s) => s.results);
  const analysis = useApp(shownAnalysis);
  const key = useApp((s) => s.keyPosition);
  const band = useApp((s) => s.band);
  if (!results || !analysis) return null;
  const state = KEY_POSITIONS.find((k) => k.key === key)?.state ?? 'RUN_CHARGING';
  const reading = readingOf(analysis, state, band);
  if (!reading?.trouble) return null;
  const { kind, where } = reading.trouble;
  const part = where.split(/[:.]/)[0] ?? '';
  const place = results.filled.parts[part] ? `, at ${partName(results.filled, part)}` : '';
  return (
    <p className="note wrong">
      {key}, {band}: not computed, {TROUBLE[kind]}
      {place}.
    </p>
  );
}
