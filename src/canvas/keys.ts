import { openPanel } from '../state/panels.ts';
import { clipHeld, keepClip, nextPaste } from './clipboard.ts';
import { copySelection, nudge, paste, removeSelection, straightenSelection } from './commands.ts';
import type { Engine } from './engine.ts';
import { commandOfKey, keyOf } from './hands/registry.ts';
import { readClip } from './readClip.ts';

const STEP = 10;
const FAR_STEP = 50;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** Is the person typing, or in a control that has its own use for keys? */
function elsewhere(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return target.closest('input, textarea, select, [contenteditable], dialog, [role=dialog], [role=menu], [role=slider], [role=radiogroup]') !== null;
}

/** Do bare keys belong to the drawing: nothing has the focus, or the surface or its outline has it? */
function onDrawing(target: EventTarget | null): boolean {
  return !(target instanceof HTMLElement) || target === document.body || target.closest('[data-drawing]') !== null;
}

/** Keys and clipboard of the drawing. @returns the state of the space bar, and the function that takes the listeners off */
export function listenToKeys(engine: Engine): { readonly isSpaceDown: () => boolean; readonly stop: () => void } {
  const { app } = engine;
  let space = false;
  const hand = { engine, app, open: openPanel };

  const onDown = (e: KeyboardEvent): void => {
    if (e.defaultPrevented || elsewhere(e.target) || !app.getState().plan) return;
    const command = e.ctrlKey || e.metaKey;
    if (e.key === ' ' && onDrawing(e.target) && !(e.target instanceof HTMLButtonElement)) {
      space = true;
      e.preventDefault();
      return;
    }
    const act = command ? commandFor(e) : onDrawing(e.target) ? bareFor(e) : null;
    if (!act) return;
    e.preventDefault();
    act();
  };

  const commandFor = (e: KeyboardEvent): (() => void) | null => {
    const key = keyOf(e);
    if (key === 'ctrl+a' && !onDrawing(e.target)) return null;
    const command = commandOfKey(key, hand);
    return command && (() => command.run(hand));
  };

  const bareFor = (e: KeyboardEvent): (() => void) | null => {
    const arrow = ARROWS[e.key];
    const scene = engine.scene;
    if (arrow && scene && !e.altKey) {
      const by = e.shiftKey ? FAR_STEP : STEP;
      return app.getState().selection.parts.length > 0 ? () => nudge(app, scene, arrow[0] * by, arrow[1] * by) : null;
    }
    switch (e.key) {
      case 'r':
      case 'R':
        if (app.getState().selection.parts.length === 0) return () => straightenSelection(app);
        break;
      case 'Escape':
        return () => {
          const { wiringFrom, setWiringFrom, placing, setPlacing, pressed, letGo, select } = app.getState();
          if (wiringFrom) setWiringFrom(null);
          else if (placing) setPlacing(null);
          else if (pressed.length > 0) letGo();
          else {
            select({ parts: [], wires: [] });
            engine.chooseZone(null);
          }
        };
    }
    return commandFor(e);
  };

  const onUp = (e: KeyboardEvent): void => {
    if (e.key === ' ') space = false;
  };

  const onCopy = (e: ClipboardEvent): void => {
    if (elsewhere(e.target) || String(window.getSelection() ?? '') !== '') return;
    const copied = copySelection(app);
    if (!copied) return;
    keepClip(copied);
    e.clipboardData?.setData('text/plain', JSON.stringify(copied));
    e.preventDefault();
    if (e.type === 'cut') removeSelection(app);
  };

  const onPaste = (e: ClipboardEvent): void => {
    if (elsewhere(e.target)) return;
    const found = readClip(e.clipboardData?.getData('text/plain') ?? '') ?? clipHeld();
    if (!found) return;
    e.preventDefault();
    paste(app, found, nextPaste());
  };

  window.addEventListener('keydown', onDown);
  window.addEventListener('keyup', onUp);
  document.addEventListener('copy', onCopy);
  document.addEventListener('cut', onCopy);
  document.addEventListener('paste', onPaste);
  return {
    isSpaceDown: () => space,
    stop: () => {
      window.removeEventListener('keydown', onDown);
      window.removeEventListener('keyup', onUp);
      document.removeEventListener('copy', onCopy);
      document.removeEventListener('cut', onCopy);
      document.removeEventListener('paste', onPaste);
    },
  };
}
