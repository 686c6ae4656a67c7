import { useEffect, useMemo, useRef, useState } from 'react';
import { useApp } from '../state/store.ts';
import { joinEnds } from './commands.ts';
import type { Engine } from './engine.ts';
import { listPlace } from './listPlace.ts';
import { endText, sensibleEnds, terminalOf } from './sensibleEnds.ts';

/** Ends shown before "show all". */
const FIRST = 7;

/** After a click on a terminal: where its wire may sensibly go, best first. For finger and keyboard; dragging stays. */
export function EndsList({ engine }: { readonly engine: Engine }) {
  const plan = useApp((s) => s.plan);
  const from = useApp((s) => s.wiringFrom);
  const camera = useApp((s) => s.camera);
  const setWiringFrom = useApp((s) => s.setWiringFrom);
  const [all, setAll] = useState(false);
  const list = useRef<HTMLDivElement>(null);
  const ends = useMemo(() => (plan && from ? sensibleEnds(plan, from) : []), [plan, from]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new beginning closes the long list
  useEffect(() => setAll(false), [from]);
  useEffect(() => {
    if (!from) return;
    const opener = document.activeElement;
    list.current?.querySelector('button')?.focus({ preventScroll: true });
    return () => {
      if (opener instanceof HTMLElement && opener.isConnected && opener !== document.body) opener.focus({ preventScroll: true });
    };
  }, [from]);

  if (!plan || !from) return null;
  const start = terminalOf(plan, from);
  const part = plan.parts[from.part];
  const pad = engine.scene?.parts.get(from.part)?.pads[from.terminal];
  if (!start || !part || !pad) return null;
  const { w, h } = engine.size;
  const at = { x: (pad.x - camera.x) * camera.zoom + w / 2, y: (pad.y - camera.y) * camera.zoom + h / 2 };
  const shown = all ? ends : ends.slice(0, FIRST);
  // On a small surface the list lies along its foot; else beside the terminal, where it hides least of what it names.
  const small = w < 500;
  const place = small
    ? { left: 8, right: 8, bottom: 8, maxHeight: h * 0.55 }
    : listPlace(
        at,
        engine.size,
        engine.live.targets.map((t) => engine.screen(t.x, t.y)),
      );

  return (
    <div
      ref={list}
      className="ends"
      role="dialog"
      aria-label={`Wire from ${endText(part, start)}`}
      style={place}
      onKeyDown={(e) => {
        if (e.key === 'Escape') {
          e.stopPropagation();
          setWiringFrom(null);
        }
        if (e.key !== 'ArrowDown' && e.key !== 'ArrowUp') return;
        const buttons = [...(list.current?.querySelectorAll('button') ?? [])];
        const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
        buttons[(at + (e.key === 'ArrowDown' ? 1 : buttons.length - 1)) % buttons.length]?.focus();
        e.preventDefault();
      }}
    >
      <p className="ends-title">
        <b>{endText(part, start)}</b> to
      </p>
      {ends.length === 0 ? <p className="ends-none">Nothing on the plan suits this terminal yet. Place the part it goes to, or drag to any terminal.</p> : null}
      <ul>
        {shown.map((e) => (
          <li key={`${e.end.part}.${e.end.terminal}`}>
            <button
              type="button"
              onClick={() => {
                setWiringFrom(null);
                joinEnds(engine.app, from, e.end);
              }}
            >
              <span>{endText(e.part, e.terminal)}</span>
              <small>{plan.zones[e.part.zone]?.name}</small>
            </button>
          </li>
        ))}
      </ul>
      <div className="ends-foot">
        {ends.length > shown.length ? (
          <button type="button" onClick={() => setAll(true)}>
            Show all {ends.length}
          </button>
        ) : null}
        <button type="button" onClick={() => setWiringFrom(null)}>
          Cancel
        </button>
      </div>
    </div>
  );
}
