import { useEffect, useLayoutEffect, useState } from 'react';
import { piece } from '../faces/piece.tsx';
import { app, useApp } from '../state/store.ts';
import { Announcer } from './Announcer.tsx';
import { Start } from './Start.tsx';
import { Toast } from './Toast.tsx';
import '../faces/faces.css';
import './ui.css';

/** The drawing surface is the heavy half of the page: the start screen does not wait for it. */
const workbench = () => import('./Workbench.tsx');
const OPENING = <p className="opening">Opening …</p>;
const Workbench = piece('The drawing', workbench, OPENING);
const Compare = piece('The comparison', () => import('./Compare.tsx'), OPENING);

/** The whole page: the start screen, or the plan that is open. */
export function App() {
  const open = useApp((s) => s.plan !== null);
  const started = useApp((s) => s.started);
  const theme = useApp((s) => s.theme);
  const title = useApp((s) => s.plan?.title);
  const comparing = useApp((s) => s.comparing);
  const [asking, setAsking] = useState(false);

  useLayoutEffect(() => {
    document.documentElement.dataset.theme = theme;
  }, [theme]);
  useEffect(() => {
    document.title = title ? `${title} – Dashloom` : 'Dashloom';
  }, [title]);

  useEffect(() => {
    if (open) setAsking(false);
  }, [open]);
  const newPlan = () => {
    app.getState().close();
    setAsking(true);
  };

  useEffect(() => {
    // The first screen stands: fetch the bench before it is asked for.
    if (started) workbench().catch(() => undefined);
  }, [started]);

  return (
    <>
      {open ? (
        comparing === null ? (
          <Workbench onNew={newPlan} />
        ) : (
          <Compare id={comparing} onClose={() => app.getState().setComparing(null)} />
        )
      ) : started ? (
        <Start asking={asking} setAsking={setAsking} />
      ) : (
        OPENING
      )}
      <Toast />
      <Announcer />
    </>
  );
}
