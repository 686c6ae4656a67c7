import { useEffect, useId, useRef, useState } from 'react';
import { useApp } from '../state/store.ts';
import { Findings } from './Findings.tsx';
import { Glance } from './Glance.tsx';
import { Headline } from './Headline.tsx';
import { Mistakes } from './Mistakes.tsx';
import { PartCard } from './PartCard.tsx';
import { Pins } from './Pins.tsx';
import { Supply } from './Supply.tsx';
import { VehicleFacts } from './VehicleFacts.tsx';
import { WireCard } from './WireCard.tsx';
import './ledger.css';

const TABS = [
  { id: 'findings', label: 'Findings' },
  { id: 'supply', label: 'Supply' },
  { id: 'pins', label: 'Pins' },
  { id: 'vehicle', label: 'Vehicle' },
] as const;
type TabId = (typeof TABS)[number]['id'];

/** The side report, "Answers" on screen: the headline, what is selected, then findings, supply, pins and vehicle. */
export function Ledger() {
  const selection = useApp((s) => s.selection);
  const [tab, setTab] = useState<TabId>('findings');
  const [wanted, setWanted] = useState<string | null>(null);
  const id = useId();
  const bar = useRef<HTMLDivElement>(null);
  const body = useRef<HTMLDivElement>(null);
  const part = selection.parts.length === 1 && selection.wires.length === 0 ? selection.parts[0] : undefined;
  const wire = selection.wires.length === 1 && selection.parts.length === 0 ? selection.wires[0] : undefined;
  const many = selection.parts.length + selection.wires.length;

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new selection is shown from its top
  useEffect(() => {
    body.current?.scrollTo({ top: 0 });
  }, [part, wire]);

  const step = (by: number) => {
    const next = TABS[(TABS.findIndex((t) => t.id === tab) + by + TABS.length) % TABS.length];
    if (!next) return;
    setTab(next.id);
    bar.current?.querySelector<HTMLButtonElement>(`[data-tab="${next.id}"]`)?.focus();
  };

  return (
    <section className="ledger" aria-label="Answers">
      <Headline />
      <div className="ledger-body" ref={body}>
        {wire ? <WireCard key={wire} id={wire} /> : null}
        {part ? (
          <PartCard
            key={part}
            id={part}
            onShowFinding={(key) => {
              setTab('findings');
              setWanted(key);
            }}
          />
        ) : null}
        {many > 1 ? (
          <p className="note">
            {selection.parts.length} parts and {selection.wires.length} wires selected. Choose one to see its figures.
          </p>
        ) : null}
        {many === 0 ? <Glance /> : null}
        <Mistakes />
        <div className="tabs" role="tablist" aria-label="Kinds of answer" ref={bar}>
          {TABS.map((t) => (
            <button
              key={t.id}
              type="button"
              role="tab"
              id={`${id}-${t.id}`}
              data-tab={t.id}
              aria-selected={t.id === tab}
              aria-controls={`${id}-panel`}
              tabIndex={t.id === tab ? 0 : -1}
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
        <div role="tabpanel" id={`${id}-panel`} aria-labelledby={`${id}-${tab}`} className="stack">
          {tab === 'findings' ? <Findings wanted={wanted} /> : null}
          {tab === 'supply' ? <Supply /> : null}
          {tab === 'pins' ? <Pins /> : null}
          {tab === 'vehicle' ? <VehicleFacts /> : null}
        </div>
      </div>
    </section>
  );
}
