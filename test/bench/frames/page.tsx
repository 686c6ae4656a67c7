import { createRoot } from 'react-dom/client';
import { Outline } from '../../../src/canvas/Outline.tsx';
import { Surface } from '../../../src/canvas/Surface.tsx';
import { app } from '../../../src/state/store.ts';
import '../../../src/ui/theme.css';
import { bigPlan } from './bigPlan.ts';

/** The surface alone with a big plan; `?parts=300&wires=500`. The runner drives it through `window.frames_`. */
const query = new URLSearchParams(location.search);
const { plan, hub } = bigPlan(Number(query.get('parts') ?? 300), Number(query.get('wires') ?? 500));

const frame = (): Promise<number> => new Promise((resolve) => requestAnimationFrame(resolve));

function fire(type: string, x: number, y: number): void {
  const target = document.querySelector('.surface-stage');
  target?.dispatchEvent(new PointerEvent(type, { bubbles: true, clientX: x, clientY: y, pointerId: 1, pointerType: 'mouse', button: 0, buttons: 1 }));
}

/** Does one thing in each frame and notes the times between frames, ms. */
async function each(frames: number, act: (i: number) => void): Promise<number[]> {
  const gaps: number[] = [];
  let last = await frame();
  for (let i = 0; i < frames; i++) {
    act(i);
    const now = await frame();
    gaps.push(now - last);
    last = now;
  }
  return gaps;
}

/** From an act until two frames later: what a person waits for at the start and end of a drag. */
async function wait(act: () => void): Promise<number> {
  const t = performance.now();
  act();
  await frame();
  await frame();
  return performance.now() - t;
}

const wheel = (init: WheelEventInit): void => {
  document.querySelector('.surface-stage')?.dispatchEvent(new WheelEvent('wheel', { bubbles: true, cancelable: true, clientX: 600, clientY: 400, ...init }));
};

const runs = {
  hub,
  look(zoom: number): void {
    const part = app.getState().scene?.parts.get(hub);
    if (part) app.getState().setCamera({ x: part.box.x + 300, y: part.box.y + 200, zoom });
  },
  async drag(frames: number): Promise<{ start: number; drop: number; gaps: number[] }> {
    const box = window.__surface?.partBox(hub);
    if (!box) throw new Error('no hub');
    const x = box.x + box.w / 2;
    const y = box.y + 6;
    fire('pointerdown', x, y);
    const start = await wait(() => fire('pointermove', x + 12, y + 12));
    const gaps = await each(frames, (i) => fire('pointermove', x + 12 + 90 * Math.sin(i / 9), y + 12 + 60 * Math.cos(i / 7)));
    const drop = await wait(() => fire('pointerup', x + 30, y + 30));
    return { start, drop, gaps };
  },
  pan: (frames: number): Promise<number[]> => each(frames, (i) => wheel({ deltaX: 11 * Math.sin(i / 15), deltaY: 9 * Math.cos(i / 11) })),
  zoom: (frames: number): Promise<number[]> => each(frames, (i) => wheel({ ctrlKey: true, deltaY: 14 * Math.sin(i / 10) })),
  /** A sharp drawing of everything in view: what follows when a motion pauses. */
  redraw: (): Promise<number> => wait(() => app.getState().setShowFigures(!app.getState().showFigures)),
};
declare global {
  interface Window {
    frames_?: typeof runs;
  }
}
window.frames_ = runs;

createRoot(document.getElementById('root') as HTMLElement).render(
  <main style={{ position: 'relative', height: '100%' }}>
    <Surface />
    <Outline />
  </main>,
);
app.getState().load(plan);
