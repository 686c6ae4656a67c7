import { useEffect } from 'react';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { saveFile } from '../state/page.ts';
import { app } from '../state/store.ts';

/** Page-wide keys: undo, redo, save, Escape puts down what is in the hand and lets go of pressed buttons. Typing in a field keeps its own keys. */
export function useHotkeys(): void {
  useEffect(() => {
    const onKey = (e: KeyboardEvent) => {
      if (e.defaultPrevented || isTyping(e.target)) return;
      const command = e.ctrlKey || e.metaKey;
      const key = e.key.toLowerCase();
      const { undo, redo, placing, setPlacing, setKey, pressed, letGo } = app.getState();
      if (command && key === 'z') {
        e.preventDefault();
        if (e.shiftKey) redo();
        else undo();
      } else if (command && key === 'y') {
        e.preventDefault();
        redo();
      } else if (command && key === 's') {
        e.preventDefault();
        void saveFile();
      } else if (e.key === 'Escape' && placing) setPlacing(null);
      else if (e.key === 'Escape' && pressed.length > 0) letGo();
      else if (e.altKey && /^[1-6]$/.test(e.key)) {
        const position = KEY_POSITIONS[Number(e.key) - 1];
        if (!position) return;
        e.preventDefault();
        setKey(position.key);
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input:not([type=radio],[type=checkbox]), textarea, select, [contenteditable]') !== null;
}
