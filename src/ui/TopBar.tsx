import { useId, useState } from 'react';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { significant } from '../faces/format.ts';
import { Icon } from '../faces/Icon.tsx';
import { Term } from '../faces/Term.tsx';
import { KeySlide } from '../keycycle/KeySlide.tsx';
import { setHead } from '../plan/edits.ts';
import type { Band } from '../plan/types.ts';
import { app, useApp } from '../state/store.ts';
import { supplyV } from '../trade/supply.ts';
import { lastCopy, wantsCopy } from './lastCopy.ts';
import { PlanMenu } from './PlanMenu.tsx';
import { ViewMenu } from './ViewMenu.tsx';
import { Wirings } from './Wirings.tsx';

/** Title, key, supply, undo, view and the way to the wiring sheet. */
export function TopBar({ phone, onNew, onSheet, onShelf }: { readonly phone: boolean; onNew(): void; onSheet(): void; onShelf?(): void }) {
  return (
    <header className="top">
      <div className="top-plan">
        <PlanMenu onNew={onNew} />
        <div className="top-title">
          <Title />
          <SaveState />
        </div>
        <Wirings />
      </div>
      {phone ? null : (
        <>
          <KeySlide />
          <SupplyBand />
        </>
      )}
      <div className="top-tools">
        <Undo />
        {onShelf ? (
          <button type="button" className="btn" onClick={onShelf}>
            <Icon name="shelf" /> Parts
          </button>
        ) : null}
        <ViewMenu small={phone}>{phone ? <SupplyBand /> : null}</ViewMenu>
        {phone ? (
          <button type="button" className="btn quiet icon" title="Wiring sheet" aria-label="Wiring sheet" onClick={onSheet}>
            <Icon name="sheet" />
          </button>
        ) : (
          <button type="button" className="btn main" onClick={onSheet}>
            Wiring sheet
          </button>
        )}
      </div>
    </header>
  );
}

function Title() {
  const plan = useApp((s) => s.plan);
  const [draft, setDraft] = useState<string | null>(null);
  if (!plan) return null;
  return (
    <input
      className="title-input"
      aria-label="Title of the plan"
      placeholder="Untitled plan"
      maxLength={80}
      value={draft ?? plan.title}
      onChange={(e) => setDraft(e.currentTarget.value)}
      onBlur={() => {
        if (draft !== null && draft.trim() !== plan.title) app.getState().apply(setHead(plan, { title: draft.trim() }));
        setDraft(null);
      }}
      onKeyDown={(e) => {
        if (e.key === 'Enter' || e.key === 'Escape') {
          if (e.key === 'Escape') setDraft(null);
          e.currentTarget.blur();
        }
      }}
    />
  );
}

const SAVED = {
  saved: 'Saved here',
  saving: 'Saving …',
  failed: 'Not saved: save a file',
  off: 'Not saved: save a file',
  behind: 'Not saved: other tab',
} as const;

function SaveState() {
  const saved = useApp((s) => s.saved);
  const copied = useApp((s) => s.copied);
  const isKept = saved === 'saved' || saved === 'saving';
  return (
    <span className={isKept ? 'note' : 'note wrong'}>
      {isKept && wantsCopy(copied) ? (
        <>
          <span className="before-copy">{SAVED[saved]}, </span>
          {lastCopy(copied)}
        </>
      ) : (
        SAVED[saved]
      )}
    </span>
  );
}

const BANDS: readonly Band[] = ['low', 'typical', 'high'];

/** Which supply the figures are for, each with its volts at the chosen key position. */
function SupplyBand() {
  const plan = useApp((s) => s.plan);
  const band = useApp((s) => s.band);
  const key = useApp((s) => s.keyPosition);
  const name = useId();
  if (!plan) return null;
  const state = KEY_POSITIONS.find((k) => k.key === key)?.state ?? 'RUN_CHARGING';
  const table = plan.vehicle.supplyV?.[state] ?? supplyV(plan.vehicle.systemV, state, plan.vehicle.dipLevel);
  return (
    <fieldset className="supply">
      <legend>
        <Term word="band">Supply</Term>
      </legend>
      <div className="choice">
        {BANDS.map((b) => (
          <label key={b}>
            <input type="radio" name={name} checked={band === b} onChange={() => app.getState().setBand(b)} />
            {b}
            <span className="supply-v">{significant(table[b], 3)} V</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function Undo() {
  const last = useApp((s) => s.past.at(-1)?.label);
  const next = useApp((s) => s.future.at(-1)?.label);
  const { undo, redo } = app.getState();
  const undoName = last === undefined ? 'Nothing to undo' : `Undo: ${last}`;
  const redoName = next === undefined ? 'Nothing to redo' : `Redo: ${next}`;
  return (
    <div className="undo">
      <button type="button" className="btn quiet icon" disabled={last === undefined} title={undoName} aria-label={undoName} onClick={undo}>
        <Icon name="undo" />
      </button>
      <button type="button" className="btn quiet icon" disabled={next === undefined} title={redoName} aria-label={redoName} onClick={redo}>
        <Icon name="redo" />
      </button>
    </div>
  );
}
