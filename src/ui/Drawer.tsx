import { useEffect, useRef } from 'react';
import { Icon } from '../faces/Icon.tsx';

/** A sheet over the drawing. It takes the focus and gives it back; Escape closes it. */
export function Drawer({
  side,
  label,
  onClose,
  children,
}: {
  readonly side: 'left' | 'bottom';
  readonly label: string;
  onClose(): void;
  readonly children: React.ReactNode;
}) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const opener = document.activeElement;
    // Its inside may have taken the focus already: a search field that was asked for.
    if (!box.current?.contains(opener)) box.current?.focus();
    return () => {
      // The focus is already where the person took it: at the button of another drawer, say.
      if (document.activeElement !== document.body) return;
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus();
    };
  }, []);
  return (
    <div
      ref={box}
      className={`drawer ${side}`}
      role="dialog"
      aria-label={label}
      tabIndex={-1}
      onKeyDown={(e) => {
        if (e.key === 'Escape' && !e.defaultPrevented) onClose();
      }}
    >
      <button type="button" className="btn quiet icon drawer-close" aria-label={`Close ${label.toLowerCase()}`} onClick={onClose}>
        <Icon name="close" />
      </button>
      {children}
    </div>
  );
}
