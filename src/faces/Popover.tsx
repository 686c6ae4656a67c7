import { type ReactNode, useId, useRef } from 'react';

/** A button that opens a small panel under it: native popover, so Escape and a click elsewhere close it. */
export function Popover({
  name,
  className,
  face,
  children,
}: {
  readonly name: string;
  readonly className?: string;
  readonly face: ReactNode;
  children(close: () => void): ReactNode;
}) {
  const id = useId();
  const button = useRef<HTMLButtonElement>(null);
  const panel = useRef<HTMLDivElement>(null);
  const close = () => panel.current?.hidePopover();
  return (
    <>
      <button ref={button} type="button" className={className ?? 'btn'} title={name} aria-label={name} popoverTarget={id}>
        {face}
      </button>
      <div
        ref={panel}
        id={id}
        popover="auto"
        className="panel"
        onToggle={(e) => {
          const at = button.current?.getBoundingClientRect();
          const node = panel.current;
          if (!at || !node || e.newState !== 'open') return;
          const size = node.getBoundingClientRect();
          node.style.top = `${Math.min(at.bottom + 6, Math.max(8, window.innerHeight - size.height - 8))}px`;
          node.style.left = `${Math.max(8, Math.min(at.left, window.innerWidth - size.width - 8))}px`;
        }}
      >
        {children(close)}
      </div>
    </>
  );
}
