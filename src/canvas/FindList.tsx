import { useMemo, useState } from 'react';
import { closePanel } from '../state/panels.ts';
import { Box, SearchField } from './Box.tsx';
import type { Engine } from './engine.ts';
import { findRows, type Row, rowsOf } from './findRows.ts';
import { boundsOf } from './lookAt.ts';

/** Rows shown at once: more is reached by typing more. */
const MOST = 40;

/** Finds parts and wires by name or number; taking one chooses it and brings it into view. */
export function FindList({ engine }: { readonly engine: Engine }) {
  const [typed, setTyped] = useState('');
  const rows = useMemo(() => {
    const { plan } = engine.app.getState();
    const tags = new Map([...(engine.scene?.wires.values() ?? [])].map((w) => [w.id, w.tag]));
    return plan ? rowsOf(plan, tags) : [];
  }, [engine]);
  const found = findRows(rows, typed);
  const take = (row: Row): void => {
    closePanel();
    engine.app.getState().select(row.choose);
    const box = engine.scene ? boundsOf(engine.scene, row.choose) : null;
    if (box) engine.moveCamera({ ...engine.camera, x: box.x + box.w / 2, y: box.y + box.h / 2, zoom: Math.max(0.7, engine.camera.zoom) });
  };
  return (
    <Box label="Find a part or wire">
      <SearchField label="Name or number" hint="Name or number, such as F2 or W12" value={typed} onType={setTyped} onEnter={() => found[0] && take(found[0])} />
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
