import { useId, useState } from 'react';
import { setPart, setWire } from '../plan/edits.ts';
import { LONGEST } from '../plan/limits.ts';
import { useApp } from '../state/store.ts';
import { change } from './actions.ts';
import './revisions.css';

/** What was found or done otherwise at the vehicle, in the person's own words; printed on the wiring sheet. */
export function NoteField({ kind, id }: { readonly kind: 'part' | 'wire'; readonly id: string }) {
  const plan = useApp((s) => s.plan);
  const [draft, setDraft] = useState<string | null>(null);
  const name = useId();
  const note = (kind === 'part' ? plan?.parts[id] : plan?.wires[id])?.note ?? '';
  const take = (): void => {
    if (plan && draft !== null && draft.trim() !== note) {
      const patch = { note: draft.trim() === '' ? undefined : draft.trim() };
      change(
        kind === 'part' ? setPart(plan, id, patch, 'part.note', 'Note on') : { ...setWire(plan, id, patch), intent: 'wire.note', label: 'Note on a wire' },
      );
    }
    setDraft(null);
  };
  return (
    <div className="field note-field">
      <label htmlFor={name}>As-built note</label>
      <textarea
        id={name}
        className="input"
        rows={2}
        maxLength={LONGEST.note}
        placeholder="As found or as fitted: printed on the sheet"
        value={draft ?? note}
        onChange={(e) => setDraft(e.currentTarget.value)}
        onBlur={take}
        onKeyDown={(e) => {
          if (e.key === 'Escape') setDraft(null);
        }}
      />
    </div>
  );
}
