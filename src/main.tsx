import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { startSession } from './state/page.ts';
import { app } from './state/store.ts';
import { attachTime } from './state/timeClient.ts';
import { attachWorker } from './state/workerClient.ts';
import { App } from './ui/App.tsx';
import { keepPageAtHand } from './ui/offline.ts';
import { followRoom } from './ui/room.ts';
import './ui/theme.css';

const root = document.getElementById('root');
if (!root) throw new Error('index.html has no element with id "root"');
followRoom();
attachWorker(app);
attachTime(app);
void startSession();
if (import.meta.env.PROD) keepPageAtHand();
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
