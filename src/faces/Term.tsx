import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { meaningOf } from '../trade/terms.ts';

/**
 * A trade word or a word of our own: dotted underline, opens one sentence of meaning. Opened by click, Enter or space;
 * closed by Escape or a click elsewhere. A word without a meaning is plain text, and a test refuses it.
 */
export function Term({
  word,
  shown,
  children,
}: {
  readonly word: string /** The word as it stands in a text. */;
  readonly shown?: string;
  readonly children?: ReactNode;
}) {
  const meaning = meaningOf(word);
  const [open, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const box = useRef<HTMLSpanElement>(null);
  const id = useId();

  useEffect(() => {
    const node = box.current;
    const at = button.current;
    if (!open || !node || !at) return;
    node.showPopover();
    const anchor = at.getBoundingClientRect();
    const size = node.getBoundingClientRect();
    const below = anchor.bottom + 6 + size.height < window.innerHeight;
    node.style.top = `${Math.max(8, below ? anchor.bottom + 6 : anchor.top - size.height - 6)}px`;
    node.style.left = `${Math.max(12, Math.min(anchor.left, window.innerWidth - size.width - 12))}px`;
    const onToggle = (event: Event) => {
      if ((event as ToggleEvent).newState === 'closed') setOpen(false);
    };
    node.addEventListener('toggle', onToggle);
    return () => node.removeEventListener('toggle', onToggle);
  }, [open]);

  if (meaning === undefined) return <>{children ?? shown ?? word}</>;
  return (
    <>
      <button
        ref={button}
        type="button"
        className="term"
        aria-expanded={open}
        {...(open ? { 'aria-describedby': id } : {})}
        onPointerDown={() => {
          // A press while open lets the popover close itself; do not reopen it on the click that follows.
          if (button.current) button.current.dataset.wasOpen = String(open);
        }}
        onClick={() => {
          if (button.current?.dataset.wasOpen === 'true') setOpen(false);
          else setOpen((was) => !was);
          if (button.current) delete button.current.dataset.wasOpen;
        }}
      >
        {children ?? shown ?? word}
      </button>
      {open ? (
        <span ref={box} id={id} popover="auto" className="meaning" role="note">
          <b>{word}</b>
          {meaning}
        </span>
      ) : null}
    </>
  );
}
