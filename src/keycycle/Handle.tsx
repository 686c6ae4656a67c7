import { useRef } from 'react';

export interface HandleProps {
  readonly label: string;
  readonly className: string;
  readonly x: number;
  readonly tS: number;
  readonly leastS: number;
  readonly mostS: number;
  /** The value in words. */
  readonly said: string;
  readonly style?: React.CSSProperties;
  /** Time at a place of the plot. */
  timeAt(x: number): number;
  move(tS: number): void;
  /** Taken into the hand or let go. */
  hold(held: boolean): void;
  readonly children?: React.ReactNode;
}

const STEP_S = 1;
const FINE_S = 0.1;
const LEAP_S = 10;

/** A moment that can be dragged along the strip, or moved with the arrow keys: one second, with Shift a tenth, by page ten. */
export function Handle({ label, className, x, tS, leastS, mostS, said, style, timeAt, move, hold, children }: HandleProps) {
  const grip = useRef(0);
  const go = (to: number) => move(Math.min(mostS, Math.max(leastS, to)));
  return (
    <div
      className={className}
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-valuemin={leastS}
      aria-valuemax={mostS}
      aria-valuenow={tS}
      aria-valuetext={said}
      style={{ ...style, left: x }}
      onPointerDown={(e) => {
        if (e.pointerType === 'mouse' && e.button !== 0) return;
        e.currentTarget.setPointerCapture(e.pointerId);
        grip.current = e.clientX - x;
        hold(true);
      }}
      onPointerMove={(e) => {
        if (e.currentTarget.hasPointerCapture(e.pointerId)) go(timeAt(e.clientX - grip.current));
      }}
      onLostPointerCapture={() => hold(false)}
      onKeyDown={(e) => {
        const step = e.shiftKey ? FINE_S : STEP_S;
        const to = { ArrowRight: tS + step, ArrowUp: tS + step, ArrowLeft: tS - step, ArrowDown: tS - step, PageUp: tS + LEAP_S, PageDown: tS - LEAP_S }[e.key];
        if (to !== undefined) go(to);
        else if (e.key === 'Home') go(leastS);
        else if (e.key === 'End') go(mostS);
        else return;
        e.preventDefault();
        e.stopPropagation();
      }}
    >
      {children}
    </div>
  );
}
