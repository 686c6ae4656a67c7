import { useEffect, useId, useMemo, useRef, useState } from 'react';
import { zoneOrder } from '../plan/edits.ts';
import { useAsked } from '../state/panels.ts';
import { app, useApp } from '../state/store.ts';
import { findItems, GROUPS, isPlacing, itemInHand, type ShelfItem, shelfItems } from './catalogue.ts';
import { likelyZone, placeInZone } from './place.ts';
import './shelf.css';

/** Pointer travel after which a press on an item is a drag, px. */
const DRAG_PX = 6;

/**
 * Where parts and sets wait. Drag one onto the plan, click it and then the plan, or press Enter to place it in the
 * chosen zone. `onTaken` is called when something is in the hand, so that a drawer may close.
 */
export function Shelf({ onTaken }: { onTaken?(): void }) {
  const plan = useApp((s) => s.plan);
  const placing = useApp((s) => s.placing);
  const chosen = useApp((s) => s.selection.parts);
  const [typed, setTyped] = useState('');
  const [about, setAbout] = useState<ShelfItem | null>(null);
  const [zone, setZone] = useState<string | null>(null);
  const items = useMemo(shelfItems, []);
  const id = useId();
  const search = useRef<HTMLInputElement>(null);
  const asked = useAsked((s) => s.shelf);
  const answered = useRef(onTaken ? 0 : asked);
  useEffect(() => {
    if (asked > answered.current) search.current?.select();
    answered.current = asked;
  }, [asked]);
  if (!plan) return null;
  const zones = zoneOrder(plan);
  const chosenZone = zone !== null && plan.zones[zone] ? zone : likelyZone(plan, chosen);
  const found = findItems(items, typed);
  const searching = typed.trim() !== '';
  const inHand = placing ? itemInHand(items, placing) : undefined;
  const shown = inHand ?? about;

  const list = (group: readonly ShelfItem[], grouped = false) => (
    <ul>
      {group.map((item) => (
        <Item key={item.key} item={item} zone={chosenZone} grouped={grouped} onAbout={setAbout} {...(onTaken ? { onTaken } : {})} />
      ))}
    </ul>
  );

  return (
    <section className="shelf" aria-label="Shelf of parts">
      <div className="shelf-find">
        <label htmlFor={`${id}-find`} className="hidden-text">
          Find a part
        </label>
        <input
          ref={search}
          id={`${id}-find`}
          type="search"
          className="input"
          placeholder="Find a part"
          value={typed}
          onChange={(e) => setTyped(e.currentTarget.value)}
          onKeyDown={(e) => {
            if (e.key === 'Escape') {
              if (typed !== '') setTyped('');
              // Bare keys belong to the drawing again.
              else e.currentTarget.blur();
            }
            const first = found[0];
            if (e.key !== 'Enter' || !searching || !first) return;
            putInZone(first, chosenZone);
            // The next word takes the place of this one.
            e.currentTarget.select();
          }}
        />
        <label className={searching ? 'note shelf-zone' : 'note shelf-zone unasked'}>
          <span className="by-keys">Enter puts it in</span>
          <span className="by-finger">The keyboard’s enter key puts it in</span>
          <select className="input" value={chosenZone} onChange={(e) => setZone(e.currentTarget.value)}>
            {zones.map((z) => (
              <option key={z} value={z}>
                {plan.zones[z]?.name}
              </option>
            ))}
          </select>
        </label>
      </div>
      <div className="shelf-list">
        {searching ? (
          found.length > 0 ? (
            list(found, true)
          ) : (
            <p className="note">Nothing on the shelf is called that. Try what it does: “fuse”, “12 to 5 volts”, “button”.</p>
          )
        ) : (
          GROUPS.map((group) => {
            const inGroup = items.filter((i) => i.group === group);
            return inGroup.length === 0 ? null : (
              <section key={group} aria-label={group}>
                <h3 className="over">{group}</h3>
                {list(inGroup)}
              </section>
            );
          })
        )}
      </div>
      <div className="shelf-foot">
        <p className="note" aria-live="polite">
          {shown ? (
            <>
              {inHand ? <b>{inHand.title}: choose its place on the plan. </b> : null}
              {shown.about}
            </>
          ) : (
            <>
              <span className="by-keys">Drag a part onto the plan, or choose it and then its place.</span>
              <span className="by-finger">Tap a part, then its place on the plan.</span>
            </>
          )}
        </p>
      </div>
    </section>
  );
}

/** Puts an item into a zone where there is room, without a pointer. */
function putInZone(item: ShelfItem, zone: string): void {
  const { plan, apply, select, setNotice } = app.getState();
  if (!plan) return;
  const { edit, parts } = placeInZone(plan, item, zone);
  const outcome = apply(edit);
  if (outcome.ok) {
    select({ parts, wires: [] });
    setNotice({ kind: 'info', text: `${item.title} is in ${plan.zones[zone]?.name ?? 'the plan'}.` });
  } else setNotice({ kind: 'problem', text: `Not placed: ${outcome.reason}` });
}

function Item({
  item,
  zone,
  grouped = false,
  onAbout,
  onTaken,
}: {
  readonly item: ShelfItem;
  readonly zone: string;
  /** Says its group too: a set and a part may have one name. */
  readonly grouped?: boolean;
  onAbout(item: ShelfItem): void;
  onTaken?(): void;
}) {
  const armed = useApp((s) => s.placing !== null && isPlacing(s.placing, item));
  const [open, setOpen] = useState(false);
  const start = useRef<{ x: number; y: number; dragging: boolean } | null>(null);

  const take = () => {
    const { type, id, variant } = item;
    app.getState().setPlacing({ type, id, ...(variant === undefined ? {} : { variant }) });
  };

  return (
    <li>
      <div className="shelf-row">
        <button
          type="button"
          className={armed ? 'shelf-item on' : 'shelf-item'}
          aria-pressed={armed}
          title={item.about}
          onFocus={() => onAbout(item)}
          onPointerEnter={() => onAbout(item)}
          onPointerDown={(e) => {
            if (e.pointerType === 'mouse' && e.button !== 0) return;
            start.current = { x: e.clientX, y: e.clientY, dragging: false };
            // The plan must receive the moves of a drag that begins here.
            if (e.currentTarget.hasPointerCapture(e.pointerId)) e.currentTarget.releasePointerCapture(e.pointerId);
            const move = (m: PointerEvent) => {
              const from = start.current;
              if (!from || from.dragging || Math.hypot(m.clientX - from.x, m.clientY - from.y) < DRAG_PX) return;
              from.dragging = true;
              take();
              onTaken?.();
            };
            const end = () => {
              // Let go anywhere but over the plan: nothing stays in the hand. The plan's own listener comes first or next.
              if (start.current?.dragging) setTimeout(() => app.getState().placing && app.getState().setPlacing(null));
              window.removeEventListener('pointermove', move);
              window.removeEventListener('pointerup', end);
              window.removeEventListener('pointercancel', end);
            };
            window.addEventListener('pointermove', move);
            window.addEventListener('pointerup', end);
            window.addEventListener('pointercancel', end);
          }}
          onClick={(e) => {
            const dragged = start.current?.dragging ?? false;
            start.current = null;
            if (dragged) return;
            // A click without pointer is Enter or space.
            if (e.detail === 0) putInZone(item, zone);
            else if (armed) app.getState().setPlacing(null);
            else {
              take();
              onTaken?.();
            }
          }}
          onKeyDown={(e) => {
            if (e.key === 'Escape' && armed) app.getState().setPlacing(null);
          }}
        >
          {item.title}
          {grouped ? <small> {item.group}</small> : null}
        </button>
        {item.variants.length > 0 ? (
          <button type="button" className="shelf-more" aria-expanded={open} aria-label={`${item.title}: ready-made kinds`} onClick={() => setOpen(!open)}>
            {item.variants.length} kinds
          </button>
        ) : null}
      </div>
      {open ? (
        <ul className="shelf-variants">
          {item.variants.map((v) => (
            <Item key={v.key} item={v} zone={zone} onAbout={onAbout} {...(onTaken ? { onTaken } : {})} />
          ))}
        </ul>
      ) : null}
    </li>
  );
}
