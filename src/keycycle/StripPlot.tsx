import { useEffect, useMemo, useRef, useState } from 'react';
import type { KeyCycle, Scenario } from '../analysis/time/types.ts';
import { textWidth } from '../drawing/text.ts';
import type { Id, Plan } from '../plan/types.ts';
import { labelRows } from '../sheet/timing/axis.ts';
import { partEvents } from '../sheet/timing/moments.ts';
import { rightRoom, scaleOf, stripPicture } from '../sheet/timing/picture.ts';
import { LEFT } from '../sheet/timing/pieces.ts';
import type { TimeScale } from '../sheet/timing/scale.ts';
import { Handle } from './Handle.tsx';
import { type Moment, type MomentId, momentsOf } from './moments.ts';
import { Primitives } from './Primitives.tsx';
import { said } from './said.ts';

export interface StripPlotProps {
  readonly plan: Plan;
  readonly cycle: KeyCycle;
  /** The moments as they stand; in the middle of a drag newer than the cycle. */
  readonly scenario: Scenario;
  readonly isStale: boolean;
  nameOf(part: Id): string;
  /** The moment looked at, s; null = none yet. */
  readonly cursorS: number | null;
  setCursor(tS: number): void;
  move(id: MomentId, tS: number): void;
  readonly held: boolean;
  hold(held: boolean): void;
  onScale(scale: TimeScale): void;
}

/** The strip drawn as wide as its place, with the moments under it as sliders. */
export function StripPlot(p: StripPlotProps) {
  const { cycle, scenario, cursorS } = p;
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const node = box.current;
    if (!node) return;
    const measure = () => setWidth(node.clientWidth);
    const observer = new ResizeObserver(measure);
    observer.observe(node);
    measure();
    return () => observer.disconnect();
  }, []);

  // The axis stands still under a moment in the hand.
  const kept = useRef<TimeScale>(null);
  const scale = useMemo(() => {
    if (p.held && kept.current) return kept.current;
    return width > 120 ? scaleOf({ ...cycle, scenario }, width, rightRoom(cycle, p.nameOf)) : null;
  }, [cycle, scenario, width, p.held, p.nameOf]);
  kept.current = scale;
  const { onScale } = p;
  useEffect(() => {
    if (scale) onScale(scale);
  }, [scale, onScale]);

  const picture = useMemo(() => (scale ? stripPicture(cycle, scale, width, p.nameOf) : null), [cycle, scale, width, p.nameOf]);
  const moments = useMemo(() => momentsOf(p.plan, scenario, p.nameOf), [p.plan, scenario, p.nameOf]);

  return (
    <div className="strip-plot" ref={box}>
      {scale && picture ? (
        <>
          <svg
            className={p.isStale ? 'strip-svg stale' : 'strip-svg'}
            width={width}
            height={picture.height}
            viewBox={`0 0 ${width} ${picture.height}`}
            role="img"
            aria-label="Key positions, volts and computer against time; the same as figures: button “As a table”"
            onPointerDown={(e) => {
              const at = e.clientX - e.currentTarget.getBoundingClientRect().left;
              if (e.button === 0 && at > LEFT - 4) p.setCursor(scale.t(at));
            }}
          >
            {/* Under the picture: the words of its bars stay readable. */}
            {moments.map((m) => (
              <line key={m.id} x1={scale.x(m.tS)} x2={scale.x(m.tS)} y1={picture.top - 6} y2={picture.bottom} className="strip-moment-line" />
            ))}
            <Primitives items={picture.primitives} />
          </svg>
          {cursorS !== null ? (
            <Handle
              className="strip-cursor"
              label="Moment looked at"
              x={scale.x(cursorS)}
              tS={cursorS}
              leastS={0}
              mostS={scenario.untilS}
              said={said(cycle, cursorS, p.nameOf)}
              style={{ height: picture.bottom }}
              timeAt={scale.t}
              move={p.setCursor}
              hold={() => undefined}
            />
          ) : null}
          <Moments {...p} scale={scale} width={width} moments={moments} />
        </>
      ) : null}
    </div>
  );
}

const KNOB_W = 18;
const NAME_SIZE = 12;

/** The knobs to drag with their names, and the names of what the parts do by themselves where there is room for them. */
function Moments({ scale, width, moments, ...p }: StripPlotProps & { readonly scale: TimeScale; readonly width: number; readonly moments: readonly Moment[] }) {
  const place = (tS: number, name: string, knob: number) => {
    const x = scale.x(tS);
    const w = textWidth(name, NAME_SIZE, true) + knob + 6;
    const toLeft = x + w - knob / 2 > width;
    return { x, toLeft, from: toLeft ? x - w + knob / 2 : x - knob / 2, to: toLeft ? x + knob / 2 : x + w - knob / 2 };
  };
  const happened = partEvents(p.cycle);
  const knobs = moments.map((m) => place(m.tS, m.label, KNOB_W));
  const events = happened.map((e) => place(e.tS, e.label, 8));
  const rows = labelRows([...knobs, ...events], 2);
  const deep = Math.max(1, ...rows.map((r) => (r ?? 0) + 1), ...rows.slice(0, knobs.length).map((r) => (r ?? 1) + 1));
  return (
    <div className="strip-moments" style={{ '--rows': deep } as React.CSSProperties}>
      {events.map((at, i) => {
        const row = rows[knobs.length + i] ?? null;
        const event = happened[i]!;
        return row === null ? null : (
          <span
            // biome-ignore lint/suspicious/noArrayIndexKey: events come anew with every cycle
            key={i}
            className={at.toLeft ? 'strip-event to-left' : 'strip-event'}
            aria-hidden="true"
            style={{ left: at.x, '--row': row } as React.CSSProperties}
          >
            {event.label}
          </span>
        );
      })}
      {moments.map((m, i) => {
        const { x, toLeft } = knobs[i]!;
        return (
          <Handle
            key={m.id}
            className={toLeft ? 'strip-handle to-left' : 'strip-handle'}
            label={m.label.charAt(0).toUpperCase() + m.label.slice(1)}
            x={x}
            tS={m.tS}
            leastS={m.leastS}
            mostS={m.mostS}
            said={m.said}
            style={{ '--row': rows[i] ?? 1 } as React.CSSProperties}
            timeAt={scale.t}
            move={(tS) => p.move(m.id, tS)}
            hold={p.hold}
          >
            <span className="strip-knob" aria-hidden="true" />
            <span className="strip-name" aria-hidden="true">
              {m.label}
            </span>
          </Handle>
        );
      })}
    </div>
  );
}
