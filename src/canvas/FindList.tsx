import { useMemo, useState } from 'react';
import type { Id } from '../plan/types.ts';
import type { Scene } from '../scene/types.ts';
import { closePanel } from '../state/panels.ts';
import type { Selection } from '../state/types.ts';
import { Box } from './Box.tsx';
import type { Engine } from './engine.ts';
import { boundsOf } from './lookAt.ts';
import { endText, terminalOf } from './sensibleEnds.ts';

/** Rows shown at once: more is reached by typing more. */
const MOST = 40;

interface Row {
  readonly id: Id;
  readonly number: string;
  readonly text: string;
  readonly place: string;
  readonly choose: Selection;
}

/** Finds parts and wires by name or number; taking one chooses it and brings it into view. */
export function FindList({ engine }: { readonly engine: Engine }) {
  const [typed, setTyped] = useState('');
  const rows = useMemo(() => (engine.scene ? rowsOf(engine, engine.scene) : []), [engine]);
  const found = findRows(rows, typed);
  const take = (row: Row): void => {
    closePanel();
    engine.app.getState().select(row.choose);
    const box = engine.scene ? boundsOf(engine.scene, row.choose) : null;
    if (box) engine.moveCamera({ ...engine.camera, x: box.x + box.w / 2, y: box.y + box.h / 2, zoom: Math.max(0.7, engine.camera.zoom) });
  };
  return (
    <Box label="Find a part or wire">
      <input
        className="over-plan-search"
        type="search"
        aria-label="Name or number"
        placeholder="Name or number, such as F2 or W12"
        value={typed}
        onChange={(e) => setTyped(e.currentTarget.value)}
        onKeyDown={(e) => {
          if (e.key === 'Enter' && found[0]) take(found[0]);
        }}
      />
      <p className="note" aria-live="polite">
        {found.length === 0 ? 'Nothing on the plan is called so.' : `${found.length} found${found.length > MOST ? `, the first ${MOST} are shown` : ''}.`}
      </p>
      <ul>
        {found.slice(0, MOST).map((row) => (
          <li key={row.id}>
            <button type="button" onClick={() => take(row)}>
              <span>
                {row.number ? <b>{row.number} </b> : null}
                {row.text}
              </span>
              <small>{row.place}</small>
            </button>
          </li>
        ))}
      </ul>
    </Box>
  );
}

function rowsOf(engine: Engine, scene: Scene): Row[] {
  const { plan } = engine.app.getState();
  if (!plan) return [];
  const parts = [...scene.parts.values()].map((p): Row => {
    const zone = plan.parts[p.id]?.zone ?? '';
    return { id: p.id, number: p.item, text: p.name, place: plan.zones[zone]?.name ?? '', choose: { parts: [p.id], wires: [] } };
  });
  const wires = [...scene.wires.values()].flatMap((w): Row[] => {
    const wire = plan.wires[w.id];
    const ends = [wire?.from, wire?.to].map((e) => {
      const [part, terminal] = e ? [plan.parts[e.part], terminalOf(plan, e)] : [];
      return part && terminal ? endText(part, terminal) : '';
    });
    return wire
      ? [
          {
            id: w.id,
            number: w.tag,
            text: ends.join(' to '),
            place: wire.owner === 'vehicle' ? 'the vehicle’s lead' : 'wire',
            choose: { parts: [], wires: [w.id] },
          },
        ]
      : [];
  });
  return [...parts, ...wires];
}

/** Rows that hold every typed word; a number that is typed whole comes first, then names that begin so. */
export function findRows<R extends Pick<Row, 'number' | 'text' | 'place'>>(rows: readonly R[], typed: string): readonly R[] {
  const wanted = typed.trim().toLowerCase();
  if (wanted === '') return rows;
  const rank = (r: R): number => {
    if (r.number.toLowerCase() === wanted) return 0;
    if (r.text.toLowerCase().startsWith(wanted)) return 1;
    return wanted.split(/\s+/).every((w) => `${r.number} ${r.text} ${r.place}`.toLowerCase().includes(w)) ? 2 : 3;
  };
  return rows
    .map((row) => ({ row, rank: rank(row) }))
    .filter((r) => r.rank < 3)
    .sort((a, b) => a.rank - b.rank)
    .map((r) => r.row);
}
