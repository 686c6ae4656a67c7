import { useEffect } from 'react';
import { useApp } from '../state/store.ts';
import { Announcer } from './Announcer.tsx';
import { Start } from './Start.tsx';
import { Toast } from './Toast.tsx';
import { Workbench } from './Workbench.tsx';
import '../faces/faces.css';
import './ui.css';

/** The whole page: the start screen, or the plan that is open. */
export function App() {
  const open = useApp((s) => s.plan !== null);
  const started = useApp((s) => s.started);
  const theme = useApp((s) => s.theme);
  const title = useApp((s) => s.plan?.title);

  useEffect(() => {
    document.documentElement.dataset.theme = theme;
  }, [theme]);
  useEffect(() => {
    document.title = title ? `${title} – Dashloom` : 'Dashloom';
  }, [title]);

  return (
    <>
      {open ? <Workbench /> : started ? <Start /> : <p className="opening">Opening …</p>}
      <Toast />
      <Announcer />
    </>
  );
}
