import { useState } from 'react';
import { limitAhead } from '../analysis/fuseLimit.ts';
import { type Analysis, KEY_POSITIONS } from '../analysis/types.ts';
import { amps, days, length, share, volts } from '../faces/format.ts';
import { Icon } from '../faces/Icon.tsx';
import { Term } from '../faces/Term.tsx';
import { TermText } from '../faces/TermText.tsx';
import { partKinds } from '../parts/index.ts';
import { removeItems, renamePart, turnParts } from '../plan/edits.ts';
import type { Id, Part } from '../plan/types.ts';
import { shownAnalysis } from '../state/shown.ts';
import { useApp } from '../state/store.ts';
import { change } from './actions.ts';
import { FindingLinks } from './FindingLinks.tsx';
import { devicesOf, itemOf, partName, readingOf } from './lookup.ts';
import { NoteField } from './NoteField.tsx';
import { PartSettings } from './PartSettings.tsx';
import { PressButton } from './PressButton.tsx';
import { Terminals } from './Terminals.tsx';

/** One part: what it is, what stands at its terminals, how it fares, what was found, and its settings. */
export function PartCard({ id, onShowFinding }: { readonly id: Id; onShowFinding(key: string): void }) {
  const plan = useApp((s) => s.plan);
  const results = useApp((s) => s.results);
  const analysis = useApp(shownAnalysis);
  const item = itemOf(results?.filled, id);
  const part = plan?.parts[id];
  const kind = part ? partKinds.get(part.kind) : undefined;
  if (!plan || !part || !kind) return null;
  const todo = results?.report.todo[id] ?? [];
  const theirs = part.owner === 'vehicle';

  return (
    <article className="card" aria-label={`Selected part ${partName(plan, id)}`}>
      <header className="card-head">
        <h3>
          {item ? <span className="item">{item}</span> : null}
          <PartTitle part={part} title={kind.title} />
        </h3>
        <span className="tools">
          <button
            type="button"
            className="btn quiet icon"
            title="Turn by a quarter"
            aria-label="Turn by a quarter"
            onClick={() => change(turnParts(plan, [id]))}
          >
            <Icon name="turn" size={18} />
          </button>
          <button
            type="button"
            className="btn quiet icon"
            title="Remove this part and its wires"
            aria-label="Remove this part and its wires"
            onClick={() => change(removeItems(plan, [id]))}
          >
            <Icon name="trash" size={18} />
          </button>
        </span>
      </header>
      <p className="soft">
        {part.name && part.name !== kind.title ? `${kind.title}. ` : ''}
        <TermText text={kind.about} />
        {theirs ? ' Belongs to the vehicle: never on your lists.' : ''}
      </p>
      {todo.length > 0 ? (
        <details className="todo-note">
          <summary>{todo.length} still open</summary>
          <ul>
            {todo.map((t) => (
              <li key={t}>{t}</li>
            ))}
          </ul>
        </details>
      ) : null}
      <FindingLinks id={id} onShowFinding={onShowFinding} />
      <PressButton part={part} />
      {analysis ? <Fares analysis={analysis} id={id} /> : null}
      <Terminals part={part} />
      <PartSettings part={part} kind={kind} />
      <NoteField key={id} kind="part" id={id} />
    </article>
  );
}

function PartTitle({ part, title }: { readonly part: Part; readonly title: string }) {
  const plan = useApp((s) => s.plan);
  const [draft, setDraft] = useState<string | null>(null);
  const shown = draft ?? part.name ?? title;
  const take = () => {
    if (plan && draft !== null && draft.trim() !== (part.name ?? title)) change(renamePart(plan, part.id, draft.trim() === title ? '' : draft));
    setDraft(null);
  };
  return (
    <input
      className="title-input"
      aria-label="Name of this part"
      value={shown}
      maxLength={60}
      size={Math.max(8, shown.length)}
      onChange={(e) => setDraft(e.currentTarget.value)}
      onBlur={take}
      onKeyDown={(e) => {
        if (e.key === 'Enter') e.currentTarget.blur();
        if (e.key === 'Escape') setDraft(null);
      }}
    />
  );
}

/** Plain words for the two-state devices inside parts. */
const DEVICES: Readonly<Record<string, { readonly name: string; readonly on: string; readonly off: string }>> = {
  coil: { name: 'Coil', on: 'pulled in', off: 'let go' },
  hold: { name: 'Contact', on: 'closed', off: 'open' },
  run: { name: 'Converter', on: 'running', off: 'off' },
  powered: { name: 'Power', on: 'enough to run', off: 'too little to run' },
  booted: { name: 'Start', on: 'done', off: 'not done' },
  stopping: { name: 'Key-off', on: 'seen: stopping', off: 'not seen' },
  halted: { name: 'System', on: 'stopped', off: 'not stopped' },
};

/** Arrival, load, fuse and device readings, each only where the part has one. */
function Fares({ analysis, id }: { readonly analysis: Analysis; readonly id: Id }) {
  const plan = useApp((s) => s.plan);
  const key = useApp((s) => s.keyPosition);
  const band = useApp((s) => s.band);
  const units = useApp((s) => s.units);
  const keyIndex = KEY_POSITIONS.findIndex((k) => k.key === key);
  const state = KEY_POSITIONS[keyIndex]?.state ?? 'RUN_CHARGING';
  const load = analysis.loads.find((l) => l.part === id);
  const fuse = analysis.fuses[id];
  const limit = plan && limitAhead(plan, analysis, id);
  const arrivals = analysis.arrivals.filter((a) => a.part === id);
  const parked = analysis.parked.shares.find((s) => s.part === id);
  const devices = devicesOf(analysis, readingOf(analysis, state, band), id);
  if (!load && !fuse && arrivals.length === 0 && !parked && devices.length === 0) return null;
  return (
    <dl className="facts">
      {arrivals.map((a) => (
        <Row key={a.label} name={`Arrives${arrivals.length > 1 ? `, ${a.label}` : ''}`}>
          {Number.isNaN(a.typical[keyIndex] ?? Number.NaN) ? 'nothing' : volts(a.typical[keyIndex] ?? Number.NaN)}
          {a.worstLow && a.worstHigh ? (
            <span className="note wide-note">
              at worst {volts(a.worstLow.v)} and {volts(a.worstHigh.v)}
            </span>
          ) : null}
        </Row>
      ))}
      {load ? (
        <Row name="Draws">
          {amps(load.amps[keyIndex] ?? Number.NaN)}
          <span className="note">
            {' '}
            peak {amps(load.peakA)}, heating {amps(load.heatA)}
          </span>
        </Row>
      ) : null}
      {parked ? (
        <Row name="Parked">
          {amps(parked.amp)}
          <span className="note">
            {' '}
            of {amps(analysis.parked.buildA)} for the build; the battery lasts {days(analysis.parked.days)}
          </span>
        </Row>
      ) : null}
      {fuse ? (
        <>
          <Row name="Carries">
            {amps(fuse.heatA)}
            <span className="note">
              {' '}
              of {amps(fuse.allowedA)} it may carry for ever ({share(fuse.heatA / fuse.allowedA)})
            </span>
          </Row>
          <Row name="Short circuit">
            {limit ? `at most ${amps(limit.maxA)}, what ${limit.byName} gives` : `${amps(fuse.leastShortA)} to ${amps(fuse.greatestShortA)}`}
          </Row>
          {fuse.unfusedM === null ? null : <Row name={<Term word="unprotected length">Unprotected ahead of it</Term>}>{length(fuse.unfusedM, units)}</Row>}
        </>
      ) : null}
      {devices.map((d) => (
        <Row key={d.name} name={DEVICES[d.name]?.name ?? d.name}>
          {d.on ? (DEVICES[d.name]?.on ?? 'on') : (DEVICES[d.name]?.off ?? 'off')} <span className="note">in {key}</span>
        </Row>
      ))}
    </dl>
  );
}

function Row({ name, children }: { readonly name: React.ReactNode; readonly children: React.ReactNode }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  );
}
