import { useMemo, useState } from 'react';
import { leavePanel } from '../state/panels.ts';
import { Box, Found, SearchField } from './Box.tsx';
import type { Engine } from './engine.ts';
import { findRows, type Row, rowsOf } from './findRows.ts';
import { boundsOf } from './lookAt.ts';

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
    leavePanel();
    engine.app.getState().select(row.choose);
    const box = engine.scene ? boundsOf(engine.scene, row.choose) : null;
    if (box) engine.moveCamera({ ...engine.camera, x: box.x + box.w / 2, y: box.y + box.h / 2, zoom: Math.max(0.7, engine.camera.zoom) });
  };
  return (
    <Box label="Find a part or wire">
      <SearchField label="Name or number" hint="Name or number, such as F2 or W12" value={typed} onType={setTyped} onEnter={() => found[0] && take(found[0])} />
      <Found rows={found} nothing="Nothing on the plan is called so." onTake={take} />
    </Box>
  );
}
