import { closePanel, usePanels } from '../state/panels.ts';

/** What was typed for a box that is not there yet: pieces of text, and Enter between them. */
let ahead: string[] = [];
const ENTER = '\n';

/** Gives what was typed ahead to the box's field, once. */
export function takeAhead(): string[] {
  const taken = ahead;
  ahead = [];
  return taken;
}

export const isEnter = (piece: string): boolean => piece === ENTER;

/** Adds a key to what was typed before it. */
export function withKey(before: readonly string[], key: string): string[] {
  const last = before.at(-1);
  const text = last === undefined || isEnter(last) ? '' : last;
  const rest = text === '' ? [...before] : before.slice(0, -1);
  if (key === 'Enter') return [...before, ENTER];
  if (key === 'Backspace') return text.length > 1 ? [...rest, text.slice(0, -1)] : rest;
  return key.length === 1 ? [...rest, text + key] : [...before];
}

/**
 * The code of the boxes over the drawing is fetched with the first of them. What is typed until it is there is meant for
 * the box, so it must do nothing to the drawing: it is kept for the box's field. @returns the function that ends it
 */
export function listenAhead(): () => void {
  const onKey = (e: KeyboardEvent): void => {
    const { open, isShown } = usePanels.getState();
    if (!open || isShown) return;
    e.stopPropagation();
    // The browser's own keys stay its own.
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    e.preventDefault();
    if (e.key === 'Escape') closePanel();
    // A key that is held down was meant once; a menu has no field.
    else if (!e.repeat && open.kind !== 'menu') ahead = withKey(ahead, e.key);
  };
  const stop = usePanels.subscribe((now, before) => {
    if (now.open !== before.open && !now.isShown) ahead = [];
  });
  window.addEventListener('keydown', onKey, true);
  return () => {
    stop();
    window.removeEventListener('keydown', onKey, true);
  };
}
