import { type ReactNode, useLayoutEffect, useRef, useState } from 'react';
import { closePanel, panelShown, usePanels } from '../state/panels.ts';
import type { FoundRow } from './findRows.ts';
import { isEnter, takeAhead } from './typedAhead.ts';

/**
 * A modal box: Escape and a press beside it close it, and the focus goes back to where it was; to the drawing when
 * something was taken from the box.
 */
export function Box({
  label,
  at,
  onEscape,
  children,
}: {
  readonly label: string;
  /** What Escape does instead of closing the box: a step back. */
  readonly onEscape?: (() => void) | undefined;
  readonly at?: { readonly x: number; readonly y: number };
  readonly children: ReactNode;
}) {
  const box = useRef<HTMLDialogElement>(null);
  const [x, y] = [at?.x, at?.y];
  // Box and field come in one step with what was typed ahead: a key between the two would be lost.
  useLayoutEffect(() => {
    const node = box.current;
    if (!node) return;
    const opener = document.activeElement;
    node.showModal();
    place(node, x, y);
    return () => {
      if (!(opener instanceof HTMLElement) || !opener.isConnected) return;
      if (!usePanels.getState().wentOn || opener.closest('[data-drawing]') !== null) opener.focus({ preventScroll: true });
    };
  }, [x, y]);
  // After the field has taken what was typed for it; also when one box takes the place of another.
  useLayoutEffect(panelShown);
  return (
    <dialog
      ref={box}
      className={at ? 'over-plan at' : 'over-plan'}
      aria-label={label}
      onClose={closePanel}
      onClick={(e) => {
        if (e.target === e.currentTarget) closePanel();
      }}
      onKeyDown={(e) => {
        if (e.key === 'Escape' && onEscape) {
          e.preventDefault();
          onEscape();
        }
        if (e.key !== 'ArrowDown' && e.key !== 'ArrowUp') return;
        const rows = [...e.currentTarget.querySelectorAll<HTMLElement>('input, button')];
        const now = rows.indexOf(document.activeElement as HTMLElement);
        rows[(now + (e.key === 'ArrowDown' ? 1 : rows.length - 1)) % rows.length]?.focus();
        e.preventDefault();
      }}
    >
      <div className="over-plan-body">{children}</div>
    </dialog>
  );
}

/** What is typed to make a list shorter; Enter takes its first row. */
export function SearchField({
  label,
  hint,
  value,
  onType,
  onEnter,
}: {
  readonly label: string;
  readonly hint: string;
  readonly value: string;
  onType(typed: string): void;
  onEnter?(): void;
}) {
  const ahead = useRef<string[] | null>(null);
  const [, step] = useState(0);
  // What was typed before the field was there, piece by piece: each Enter finds what the text before it has done.
  useLayoutEffect(() => {
    ahead.current ??= takeAhead();
    const piece = ahead.current.shift();
    if (piece === undefined) return;
    if (isEnter(piece)) onEnter?.();
    else onType(piece);
    step((n) => n + 1);
  });
  return (
    <input
      className="over-plan-search"
      type="search"
      aria-label={label}
      placeholder={hint}
      value={value}
      onChange={(e) => onType(e.currentTarget.value)}
      onKeyDown={(e) => {
        if (e.key !== 'Enter') return;
        // The box closes and gives the focus back: the key must not press what receives it.
        e.preventDefault();
        onEnter?.();
      }}
    />
  );
}

/** Rows shown at once: more is reached by typing more. */
const MOST = 40;

/** The rows that were found, under how many they are; `said` stands instead of the count where it is given. */
export function Found<R extends FoundRow>({
  rows,
  nothing,
  said,
  onTake,
}: {
  readonly rows: readonly R[];
  /** What is said when there is no row. */
  readonly nothing: string;
  readonly said?: string;
  onTake(row: R): void;
}) {
  const count = `${rows.length} found${rows.length > MOST ? `, the first ${MOST} are shown` : ''}.`;
  return (
    <>
      <p className="note" aria-live="polite">
        {rows.length === 0 ? nothing : (said ?? count)}
      </p>
      <ul>
        {rows.slice(0, MOST).map((row) => (
          <li key={row.key}>
            <button type="button" onClick={() => onTake(row)}>
              <span>
                {row.number ? <b>{row.number} </b> : null}
                {row.text}
              </span>
              <small>{row.place}</small>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Beside a place, within the window. */
function place(node: HTMLElement, x: number | undefined, y: number | undefined): void {
  if (x === undefined || y === undefined) return;
  const { width, height } = node.getBoundingClientRect();
  node.style.left = `${Math.max(8, Math.min(x, window.innerWidth - width - 8))}px`;
  node.style.top = `${Math.max(8, Math.min(y, window.innerHeight - height - 8))}px`;
}
