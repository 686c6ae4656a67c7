import { useEffect, useRef } from 'react';
import { LoadAnew, type MissingProps } from '../faces/piece.tsx';
import { missingText } from '../state/missing.ts';
import { closePanel, openPanel, panelShown, usePanels } from '../state/panels.ts';

/** Instead of a box over the drawing whose code could not be fetched. */
export function MissingBox({ what, again }: MissingProps) {
  const box = useRef<HTMLDialogElement>(null);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    const node = box.current;
    const opener = document.activeElement;
    node?.showModal();
    // Not on a button: what is typed for the box may still be on its way.
    title.current?.focus();
    // From here on keys are no text for the box: the message has them, and none of them does anything to the drawing.
    panelShown();
    return () => {
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus({ preventScroll: true });
    };
  }, []);
  const retry = (): void => {
    const { open } = usePanels.getState();
    if (open) openPanel(open);
    again();
  };
  return (
    <dialog ref={box} className="missing-box" role="alertdialog" aria-labelledby="missing-title" aria-describedby="missing-text" onClose={closePanel}>
      <h2 id="missing-title" ref={title} tabIndex={-1}>
        That did not come
      </h2>
      <p id="missing-text">{missingText(what)}</p>
      <div className="missing-ways">
        <button type="button" className="btn main" onClick={retry}>
          Try again
        </button>
        <LoadAnew />
        <button type="button" className="btn" onClick={closePanel}>
          Leave it
        </button>
      </div>
    </dialog>
  );
}
