import { useEffect, useId, useRef, useState } from 'react';
import type { Group, JobEntry, JobStage } from '../advise/jobTypes.ts';
import { count } from '../faces/format.ts';
import { piece } from '../faces/piece.tsx';
import { TermText } from '../faces/TermText.tsx';
import { setFitted, setSetting, setTicks } from '../plan/edits.ts';
import { FIRST_STAGE } from '../plan/stages.ts';
import type { Id } from '../plan/types.ts';
import { app, useApp } from '../state/store.ts';
import { change, pointAt, pointAway } from './actions.ts';
import { STAGE_WORDS } from './jobWords.ts';
import { show } from './lookAt.ts';
import { useJob, whenCurrent } from './useJob.ts';
import './job.css';

const Revisions = piece('The list of revisions', () => import('./Revisions.tsx'), <p className="note">One moment …</p>);

/** What is to do at the stage where the plan stands, as boxes to tick and places to look at. */
export function Job({ onShown }: { /** Something is shown on the drawing. */ onShown?(): void }) {
  const stages = useJob();
  const at = useApp((s) => s.plan?.stage ?? FIRST_STAGE);
  const stage = stages?.find((s) => s.stage === at);
  const here = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another stage is read from its top
  useEffect(() => {
    here.current?.closest('.drawer-scroll, .ledger-body')?.scrollTo({ top: 0 });
  }, [at]);
  if (!stage) return <p className="note">Being worked out …</p>;
  const { name, about } = STAGE_WORDS[at];
  return (
    <section ref={here} className="job" aria-label={`Job: ${name}`}>
      <header className="job-head">
        <h3>{name}</h3>
        <span className="note">{stage.entries.length === 0 ? '' : `${stage.open} of ${stage.entries.length} open`}</span>
      </header>
      <p className="soft">
        <TermText text={about} />
      </p>
      {stage.entries.length === 0 ? <p className="note">{NOTHING[at] ?? 'Nothing here yet: it comes with the first parts of the build.'}</p> : null}
      {grouped(stage).map(({ group, entries }) => (
        <Lot key={group?.key ?? ''} group={group} entries={entries} whole={at === 'wire'} {...(onShown ? { onShown } : {})} />
      ))}
      <RevisionsFold />
    </section>
  );
}

/** Folded until asked for; its code is fetched then. */
function RevisionsFold() {
  const [open, setOpen] = useState(false);
  const made = useApp((s) => Object.keys(s.plan?.revisions ?? {}).length);
  return (
    <details className="revisions-fold" open={open} onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>Revisions{made === 0 ? '' : ` (${made})`}</summary>
      {open ? <Revisions /> : null}
    </details>
  );
}

const NOTHING: Readonly<Partial<Record<JobStage['stage'], string>>> = {
  find: 'No lead to measure yet: put a feed on the plan.',
  draw: 'Nothing is loose, and no hazard or fault was found. What no drawing can show stands on the wiring sheet’s checklist.',
};

function grouped({ entries }: JobStage): { group: Group | undefined; entries: JobEntry[] }[] {
  const lots = new Map<string, { group: Group | undefined; entries: JobEntry[] }>();
  for (const entry of entries) {
    const key = entry.group?.key ?? '';
    const lot = lots.get(key);
    if (lot) lot.entries.push(entry);
    else lots.set(key, { group: entry.group, entries: [entry] });
  }
  return [...lots.values()];
}

/** Entries that are done together; a whole zone may be ticked at once. */
function Lot({
  group,
  entries,
  whole,
  onShown,
}: {
  readonly group: Group | undefined;
  readonly entries: readonly JobEntry[];
  readonly whole: boolean;
  onShown?(): void;
}) {
  const id = useId();
  const open = entries.filter((e) => !e.done);
  return (
    <section className="job-lot" {...(group ? { 'aria-labelledby': id } : {})}>
      {group ? (
        <header>
          <h4 id={id}>{group.title}</h4>
          {whole && open.length > 1 ? (
            <button type="button" className="btn" onClick={() => fitIn(open, true)}>
              Tick all {open.length}
              <span className="hidden-text"> in {group.title}</span>
            </button>
          ) : (
            <span className="note">{open.length === 0 ? 'done' : count(open.length, 'open line')}</span>
          )}
        </header>
      ) : null}
      <ul>
        {entries.map((entry) => (
          <Row key={entry.key} entry={entry} {...(onShown ? { onShown } : {})} />
        ))}
      </ul>
    </section>
  );
}

function Row({ entry, onShown }: { readonly entry: JobEntry; onShown?(): void }) {
  const { subject } = entry;
  // A tick shows at once, also while the figures that it freezes are still being worked out.
  const [asked, setAsked] = useState<boolean | null>(null);
  if (asked !== null && asked === entry.done) setAsked(null);
  const done = asked ?? entry.done;
  const words = (
    <span className="job-words">
      {entry.about === '' ? null : <b>{entry.about}</b>} {entry.text}
    </span>
  );
  return (
    <li className={done ? 'job-row done' : 'job-row'} onPointerEnter={() => (subject ? pointAt([subject]) : undefined)} onPointerLeave={pointAway}>
      {entry.by.how === 'plan' ? (
        <span className="job-open">{words}</span>
      ) : (
        <label>
          <input
            type="checkbox"
            checked={done}
            onChange={(e) => {
              setAsked(e.currentTarget.checked);
              close(entry, e.currentTarget.checked, () => setAsked(null));
            }}
          />
          {words}
        </label>
      )}
      {subject ? (
        <button
          type="button"
          className="btn quiet"
          onClick={() => {
            show(subject);
            onShown?.();
          }}
        >
          Show<span className="hidden-text"> {entry.about} on the plan</span>
        </button>
      ) : null}
    </li>
  );
}

function close(entry: JobEntry, done: boolean, giveUp: () => void): void {
  const { plan } = app.getState();
  const { by, subject } = entry;
  if (by.how === 'fit') fitIn([entry], done, giveUp);
  else if (plan && by.how === 'tick') tell(change(setTicks(plan, by.keys, done, by.instead)), giveUp);
  else if (plan && by.how === 'setting' && subject) tell(change(setSetting(plan, subject.id, by.setting, done)), giveUp);
}

function tell(refused: string | null, giveUp: () => void): void {
  if (refused !== null) giveUp();
}

/** What is fitted takes the automatic values of the moment with it: they must be those of the plan as it stands. */
function fitIn(entries: readonly JobEntry[], done: boolean, giveUp: () => void = () => undefined): void {
  const of = (kind: 'part' | 'wire'): Id[] => entries.flatMap((e) => (e.subject?.kind === kind ? [e.subject.id] : []));
  whenCurrent(() => {
    const { plan, results } = app.getState();
    if (plan && results) tell(change(setFitted(plan, results.filled, { parts: of('part'), wires: of('wire') }, done)), giveUp);
  }, giveUp);
}
