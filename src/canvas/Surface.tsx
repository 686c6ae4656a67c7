import Konva from 'konva';
import { useEffect, useRef, useState } from 'react';
import { Layer, Shape, Stage } from 'react-konva';
import { piece } from '../faces/piece.tsx';
import { usePanels } from '../state/panels.ts';
import { app } from '../state/store.ts';
import type { View } from './camera.ts';
import { EndsList } from './EndsList.tsx';
import { Engine } from './engine.ts';
import { exposeHook } from './hook.ts';
import { listenToKeys } from './keys.ts';
import { MissingBox } from './MissingBox.tsx';
import { listenToPointers } from './pointer.ts';
import { listenAhead } from './typedAhead.ts';
import './canvas.css';

const OverPlan = piece('This box', () => import('./OverPlan.tsx'), null, MissingBox);

// More than two device pixels for each of ours only costs memory.
Konva.pixelRatio = Math.min(2, globalThis.devicePixelRatio || 1);

/** Drawn beyond each edge of the view, so that panning has pixels to move in; less on a small screen. */
const marginFor = (view: View): number => (view.w < 700 ? 160 : 320);

/**
 * The drawing surface. React holds stage and layers; what is on them is painted by one shape a layer. The pixels say
 * nothing to a screen reader: the outline beside it does.
 */
export function Surface() {
  const root = useRef<HTMLDivElement>(null);
  const mover = useRef<HTMLDivElement>(null);
  const standing = useRef<Konva.Layer>(null);
  const live = useRef<Konva.Layer>(null);
  const [engine] = useState(() => new Engine(app));
  const [view, setView] = useState<View>({ w: 0, h: 0 });
  const margin = marginFor(view);
  const panel = usePanels((s) => s.open);

  useEffect(() => {
    const el = root.current;
    if (!el) return;
    const measure = (): void => setView({ w: el.clientWidth, h: el.clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(el);
    measure();
    return () => observer.disconnect();
  }, []);

  useEffect(() => {
    if (!root.current || !mover.current || !standing.current || !live.current) return;
    const ends = [engine.mount({ root: root.current, mover: mover.current, standing: standing.current, live: live.current }), exposeHook(engine, root.current)];
    const keys = listenToKeys(engine);
    ends.push(keys.stop, listenAhead(), listenToPointers(engine, root.current, keys.isSpaceDown));
    return () => {
      for (const end of ends) end();
    };
  }, [engine]);

  useEffect(() => {
    if (view.w > 0) engine.resize(view, margin);
  }, [engine, view, margin]);

  return (
    <div className="surface" data-drawing="">
      <div className="surface-stage" ref={root} aria-hidden="true">
        <div className="surface-mover" ref={mover} style={{ left: -margin, top: -margin }}>
          <Stage width={view.w + 2 * margin} height={view.h + 2 * margin} listening={false}>
            <Layer ref={standing} listening={false}>
              <Shape sceneFunc={(c) => engine.paintStanding(c._context)} perfectDrawEnabled={false} />
            </Layer>
            <Layer ref={live} listening={false}>
              <Shape sceneFunc={(c) => engine.paintLive(c._context)} perfectDrawEnabled={false} />
            </Layer>
          </Stage>
        </div>
      </div>
      <EndsList engine={engine} />
      {panel ? <OverPlan engine={engine} panel={panel} /> : null}
    </div>
  );
}
