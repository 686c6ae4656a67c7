import { useState } from 'react';
import type { Mistake } from '../advise/mistakes.ts';
import { Section } from '../faces/Section.tsx';
import { later, useLater } from '../faces/useLater.ts';
import { originOf } from '../plan/new.ts';
import { app, useApp } from '../state/store.ts';
import { change } from './actions.ts';

const mistakesCode = later('The list of mistakes to try', () => import('../advise/mistakes.ts'));

const DEMO_ID = 'demo-mobile-library-van';

/** Six mistakes people make, each one click, each undone by another. Only in the demo. */
export function Mistakes() {
  const demo = useApp((s) => s.plan !== null && originOf(s.plan.id) === DEMO_ID);
  const past = useApp((s) => s.past);
  const list = useLater(mistakesCode, demo)?.mistakes ?? [];
  const [last, setLast] = useState<Mistake | null>(null);
  if (!demo || list.length === 0) return null;
  return (
    <Section title="Try a mistake">
      <p className="note">Make one, see what is said, mend it from its card or undo it.</p>
      <div className="mistakes">
        {list.map((m) => {
          const made = past.some((e) => e.intent === 'mistake.try' && e.label === labelOf(m));
          return (
            <button
              key={m.id}
              type="button"
              className={made ? 'btn on' : 'btn'}
              aria-pressed={made}
              onClick={() => {
                const { plan, setNotice } = app.getState();
                if (!plan || made) return;
                const edit = m.edit(plan);
                if (!edit) setNotice({ kind: 'info', text: 'The demo has been changed so far that this no longer fits. Undo, or open the demo again.' });
                else if (change({ ...edit, label: labelOf(m) }) === null) setLast(m);
              }}
            >
              {m.title}
              {made ? <span className="note"> made</span> : null}
            </button>
          );
        })}
      </div>
      {last ? (
        <p className="note" role="status">
          {last.look}
        </p>
      ) : null}
    </Section>
  );
}

const labelOf = (m: Mistake): string => `Try: ${m.title.charAt(0).toLowerCase()}${m.title.slice(1)}`;
