import { createRoot } from 'react-dom/client';
import { setWire } from '../../../src/plan/edits.ts';
import { app } from '../../../src/state/store.ts';
import { attachWorker, newWorker } from '../../../src/state/workerClient.ts';
import Workbench from '../../../src/ui/Workbench.tsx';
import '../../../src/faces/faces.css';
import '../../../src/ui/theme.css';
import '../../../src/ui/ui.css';
import { largePlan } from '../largePlan.ts';
import { bigPlan } from './bigPlan.ts';

/**
 * The bench with a big plan, `?parts=300&wires=500`; without wires it is one that a fitter could have drawn. The runner
 * drives it through `window.frames_`.
 */
const query = new URLSearchParams(location.search);
const parts = Number(query.get('parts'));
const { plan, hub } = query.has('wires') ? bigPlan(parts, Number(query.get('wires'))) : { plan: largePlan(parts), hub: '' };

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

function arithmetic(steps: number): number {
  let sum = 0;
  for (let i = 1; i <= steps; i++) sum += Math.sqrt(i) / (1 + (sum % 7));
  return sum;
}

/** Keeps a worker analysing the same plan over and over, beside the app's own. @returns a function that ends it */
function keepAnalysing(): () => void {
  const worker = newWorker();
  let id = 0;
  const ask = (): void => worker.postMessage({ id: ++id, plan });
  worker.onmessage = ask;
  ask();
  return () => worker.terminate();
}
let rest = (): void => undefined;
/** Where the part was taken, and to which side it goes next. */
let held = { x: 0, y: 0 };
let side = -1;

const runs = {
  hub,
  /** Has the app's own worker answered for the plan as it stands? */
  isSettled: (): boolean => app.getState().resultsFor === app.getState().plan,
  analyse(on: boolean): void {
    rest();
    rest = on ? keepAnalysing() : () => undefined;
  },
  /** Edits of one wire's length after another, each drawn and each analysed as far as the worker keeps up. */
  async edit(count: number): Promise<void> {
    const ids = Object.keys(plan.wires);
    for (let i = 0; i < count; i++) {
      const now = app.getState().plan;
      if (now) app.getState().apply(setWire(now, ids[i % ids.length] as string, { lengthM: 1 + (i % 7) / 4 + Math.floor(i / 7) / 1000 }));
      await frame();
    }
  },
  /** From the edit of a wire's length until its findings are drawn, ms. */
  async answer(round: number): Promise<number> {
    const { plan: now, apply } = app.getState();
    const own = Object.values(now?.wires ?? {}).find((w) => w.owner === 'build');
    if (!now || !own) throw new Error('nothing to edit');
    const t = performance.now();
    apply(setWire(now, own.id, { lengthM: 2 + round / 100 }));
    await new Promise<void>((resolve) => {
      const stop = app.subscribe(() => {
        if (!runs.isSettled()) return;
        stop();
        resolve();
      });
    });
    await frame();
    return performance.now() - t;
  },
  look(zoom: number): void {
    const part = app.getState().scene?.parts.get(hub);
    if (part) app.getState().setCamera({ x: part.box.x + 300, y: part.box.y + 200, zoom });
  },
  /** Takes the part with 20 wires by its head. */
  take(): Promise<number> {
    const box = window.__surface?.partBox(hub);
    if (!box) throw new Error('no hub');
    held = { x: box.x + box.w / 2, y: box.y + 6 };
    fire('pointerdown', held.x, held.y);
    return wait(() => fire('pointermove', held.x + 12, held.y + 12));
  },
  drag: (frames: number): Promise<number[]> => each(frames, (i) => fire('pointermove', held.x + 12 + 90 * Math.sin(i / 9), held.y + 12 + 60 * Math.cos(i / 7))),
  /** Lets it go a little aside, to and fro by turns. */
  drop(): Promise<number> {
    side = -side;
    return wait(() => fire('pointerup', held.x + 30 * side, held.y + 30 * side));
  },
  /** The same loop with 8 ms of arithmetic in each frame, sized where this machine did it fastest. */
  plain(frames: number): Promise<number[]> {
    const steps = 200_000;
    const times = Array.from({ length: 20 }, () => {
      const t = performance.now();
      arithmetic(steps);
      return performance.now() - t;
    });
    const inEight = Math.round((8 / Math.max(0.05, Math.min(...times))) * steps);
    return each(frames, () => void arithmetic(inEight));
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

app.getState().load(plan);
attachWorker(app);
createRoot(document.getElementById('root') as HTMLElement).render(<Workbench onNew={() => undefined} />);
