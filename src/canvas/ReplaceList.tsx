import { useState } from 'react';
import { partKind } from '../parts/index.ts';
import { replacePart } from '../plan/edits.ts';
import type { Edit, Id } from '../plan/types.ts';
import { leavePanel } from '../state/panels.ts';
import type { App } from '../state/store.ts';
import { Box, SearchField } from './Box.tsx';
import { exchanges, fittedWire } from './replace.ts';
import { terminalOf } from './sensibleEnds.ts';

/** Kinds that may take a part's place, each with what becomes of the wires: said before, never found out afterwards. */
export function ReplaceList({ app, part: id, onTake }: { readonly app: App; readonly part: Id; onTake(edit: Edit): void }) {
  const [typed, setTyped] = useState('');
  const { plan } = app.getState();
  const part = plan?.parts[id];
  if (!plan || !part) return null;
  const name = part.name ?? partKind(part.kind).title;
  const refusal = fittedWire(plan, id);
  const wanted = typed.trim().toLowerCase();
  const rows = exchanges(plan, part).filter((x) => `${x.kind.title} ${(x.kind.words ?? []).join(' ')}`.toLowerCase().includes(wanted));
  return (
    <Box label={`Replace ${name} by`}>
      <h3>Replace {name} by</h3>
      {refusal ? (
        <p>{refusal}</p>
      ) : (
        <>
          <SearchField label="Search the kinds" hint="Which kind?" value={typed} onType={setTyped} />
          <ul>
            {rows.map((x) => {
              const ends = x.lost.map((w) => terminalOf(plan, w.from.part === id ? w.from : w.to)?.title ?? '?');
              const loses = x.lost.length === 0 ? '' : `removes ${x.lost.length === 1 ? 'the wire' : `${x.lost.length} wires`} at ${ends.join(', ')}`;
              return (
                <li key={x.kind.kind}>
                  <button
                    type="button"
                    onClick={() => {
                      leavePanel();
                      onTake(replacePart(plan, id, x.kind.kind, x.settings, x.to));
                    }}
                  >
                    <span>{x.kind.title}</span> <small>{loses || (x.kept.length === 0 ? 'no wires on it' : 'keeps all its wires')}</small>
                  </button>
                </li>
              );
            })}
          </ul>
        </>
      )}
    </Box>
  );
}
