import { lazy, Suspense, useEffect, useLayoutEffect, useState } from 'react';
import { app, useApp } from '../state/store.ts';
import { Announcer } from './Announcer.tsx';
import { Start } from './Start.tsx';
import { Toast } from './Toast.tsx';
import '../faces/faces.css';
import './ui.css';

/** The drawing surface is the heavy half of the page: the start screen does not wait for it. */
const workbench = () => import('./Workbench.tsx');
const Workbench = lazy(workbench);
const Compare = lazy(() => import('./Compare.tsx'));

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
    if (started) void workbench();
  }, [started]);

  return (
    <>
      {open ? (
        <Suspense fallback={<p className="opening">Opening …</p>}>
          {comparing === null ? <Workbench onNew={newPlan} /> : <Compare id={comparing} onClose={() => app.getState().setComparing(null)} />}
        </Suspense>
      ) : started ? (
        <Start asking={asking} setAsking={setAsking} />
      ) : (
        <p className="opening">Opening …</p>
      )}
      <Toast />
      <Announcer />
    </>
  );
}
