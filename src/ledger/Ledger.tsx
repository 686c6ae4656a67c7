import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { count } from '../faces/format.ts';
import { removeItems } from '../plan/edits.ts';
import { useApp } from '../state/store.ts';
import { change } from './actions.ts';
import { Findings } from './Findings.tsx';
import { Glance } from './Glance.tsx';
import { Headline } from './Headline.tsx';
import { Job } from './Job.tsx';
import { Limits } from './Limits.tsx';
import { Mistakes } from './Mistakes.tsx';
import { PartCard } from './PartCard.tsx';
import { Pins } from './Pins.tsx';
import { Supply } from './Supply.tsx';
import { VehicleFacts } from './VehicleFacts.tsx';
import { WireCard } from './WireCard.tsx';
import './ledger.css';

const TABS = [
  { id: 'findings', label: 'Findings' },
  { id: 'job', label: 'Job' },
  { id: 'supply', label: 'Supply' },
  { id: 'pins', label: 'Pins' },
  { id: 'vehicle', label: 'Vehicle' },
] as const;
const SELECTED = { id: 'selected', label: 'Selected' } as const;
const GUIDE = { id: 'guide', label: 'Guide' } as const;
type TabId = (typeof TABS)[number]['id'] | 'selected' | 'guide';

/** The side report, "Answers" on screen: the headline, then what is selected, findings, supply, pins and vehicle. */
export function Ledger({
  jobAsked = 0,
  guideAsked = 0,
  guide = null,
}: {
  /** Grows each time the job is asked for. */
  readonly jobAsked?: number;
  /** Grows each time the guide is asked for. */
  readonly guideAsked?: number;
  /** The guided build, while it is shown. */
  readonly guide?: ReactNode;
}) {
  const selection = useApp((s) => s.selection);
  const [tab, setTab] = useState<TabId>(guide ? 'guide' : 'findings');
  const [wanted, setWanted] = useState<{ readonly key: string } | null>(null);
  const id = useId();
  const bar = useRef<HTMLDivElement>(null);
  const body = useRef<HTMLDivElement>(null);
  const before = useRef<TabId>(tab);
  const selected = selection.parts.length + selection.wires.length;
  const tabs = [...(selected > 0 ? [SELECTED] : []), ...(guide ? [GUIDE] : []), ...TABS];
  const wish: TabId = tab === 'selected' && selected === 0 ? before.current : tab;
  const shown: TabId = wish === 'guide' && !guide ? 'findings' : wish;

  // Something selected on the plan is what the person asks about; selected from a finding, the finding stays in view.
  useEffect(() => {
    if (selection.parts.length + selection.wires.length === 0) setTab((was) => (was === 'selected' ? before.current : was));
    else if (!document.activeElement?.closest('.finding, .job, .guided')) setTab('selected');
  }, [selection]);
  useEffect(() => {
    if (jobAsked > 0) setTab('job');
  }, [jobAsked]);
  useEffect(() => {
    if (guideAsked > 0) setTab('guide');
  }, [guideAsked]);
  const subject = shown === 'selected' ? selection : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another tab, or another thing selected, is shown from its top
  useEffect(() => {
    if (shown !== 'selected') before.current = shown;
    body.current?.scrollTo({ top: 0 });
  }, [shown, subject]);

  const showFinding = (key: string) => {
    setTab('findings');
    setWanted({ key });
  };
  const step = (by: number) => {
    const next = tabs[(tabs.findIndex((t) => t.id === shown) + by + tabs.length) % tabs.length];
    if (!next) return;
    setTab(next.id);
    bar.current?.querySelector<HTMLButtonElement>(`[data-tab="${next.id}"]`)?.focus();
  };

  return (
    <section className="ledger" aria-label="Answers">
      <Headline />
      <div className={tabs.length > TABS.length + 1 ? 'tabs many' : 'tabs'} role="tablist" aria-label="Kinds of answer" ref={bar}>
        {tabs.map((t) => (
          <button
            key={t.id}
            type="button"
            role="tab"
            id={`${id}-${t.id}`}
            data-tab={t.id}
            aria-selected={t.id === shown}
            aria-controls={`${id}-panel`}
            tabIndex={t.id === shown ? 0 : -1}
            onClick={() => setTab(t.id)}
            onKeyDown={(e) => {
              if (e.key === 'ArrowRight') step(1);
              if (e.key === 'ArrowLeft') step(-1);
            }}
          >
            {t.label}
          </button>
        ))}
      </div>
      <div className="ledger-body" role="tabpanel" id={`${id}-panel`} aria-labelledby={`${id}-${shown}`} ref={body}>
        <div className="stack">
          {shown === 'selected' ? <Selected onShowFinding={showFinding} /> : null}
          {shown === 'guide' ? guide : null}
          {shown === 'findings' ? (
            <>
              <Glance />
              <Mistakes />
              <Findings wanted={wanted} />
            </>
          ) : null}
          {shown === 'job' ? <Job /> : null}
          {shown === 'supply' ? <Supply onShowFinding={showFinding} /> : null}
          {shown === 'pins' ? <Pins /> : null}
          {shown === 'vehicle' ? (
            <>
              <VehicleFacts />
              <Limits />
            </>
          ) : null}
        </div>
      </div>
    </section>
  );
}

function Selected({ onShowFinding }: { onShowFinding(key: string): void }) {
  const plan = useApp((s) => s.plan);
  const { parts, wires } = useApp((s) => s.selection);
  const part = parts[0];
  const wire = wires[0];
  if (parts.length === 1 && wires.length === 0 && part !== undefined) return <PartCard key={part} id={part} onShowFinding={onShowFinding} />;
  if (wires.length === 1 && parts.length === 0 && wire !== undefined) return <WireCard key={wire} id={wire} onShowFinding={onShowFinding} />;
  if (!plan) return null;
  return (
    <>
      <p>
        {[parts.length > 0 ? count(parts.length, 'part') : '', wires.length > 0 ? count(wires.length, 'wire') : ''].filter((t) => t !== '').join(' and ')}{' '}
        selected. Select one alone to see its figures.
      </p>
      <button type="button" className="btn" onClick={() => change(removeItems(plan, parts, wires))}>
        Remove them
      </button>
    </>
  );
}
