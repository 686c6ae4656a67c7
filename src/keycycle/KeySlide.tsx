import { useId, useRef } from 'react';
import { KEY_POSITIONS, type KeyPosition } from '../analysis/types.ts';
import { Term } from '../faces/Term.tsx';
import { KEY_MEANING } from '../faces/words.ts';
import { useApp } from '../state/store.ts';
import { isLive } from '../trade/lines.ts';
import type { Line } from '../trade/words.ts';
import './keySlide.css';

/** How far the barrel is turned at each position, degrees: it springs back from Start and stands upright at key-off. */
const BARREL: Readonly<Record<KeyPosition, number>> = { Parked: 0, Accessory: 30, Ignition: 60, Start: 90, Running: 60, Held: 0 };
const LINES: readonly Line[] = ['30', '75', '15', '50'];

/**
 * The main control: six key positions on one slide. A radio group for keyboard and screen reader; a finger or pointer
 * may slide along it. Under each stop stand the terminal numbers that are live there.
 */
export function KeySlide() {
  const key = useApp((s) => s.keyPosition);
  const setKey = useApp((s) => s.setKey);
  const name = useId();
  const track = useRef<HTMLDivElement>(null);
  const index = KEY_POSITIONS.findIndex((k) => k.key === key);

  const slideTo = (clientX: number) => {
    const box = track.current?.getBoundingClientRect();
    if (!box) return;
    const stop = Math.floor(((clientX - box.left) / box.width) * KEY_POSITIONS.length);
    const target = KEY_POSITIONS[Math.max(0, Math.min(KEY_POSITIONS.length - 1, stop))];
    if (target && target.key !== key) setKey(target.key);
  };

  return (
    <fieldset className="key-slide">
      <legend>
        <Term word="key position">Key</Term>
        <span className="hidden-text"> position</span>
      </legend>
      <div
        ref={track}
        className="key-track"
        style={{ '--at': index } as React.CSSProperties}
        onPointerDown={(e) => {
          if (e.pointerType === 'mouse' && e.button !== 0) return;
          e.currentTarget.setPointerCapture(e.pointerId);
          slideTo(e.clientX);
        }}
        onPointerMove={(e) => {
          if (e.currentTarget.hasPointerCapture(e.pointerId)) slideTo(e.clientX);
        }}
      >
        <span className="key-rail" aria-hidden="true" />
        {KEY_POSITIONS.map(({ key: position, state }) => {
          // In Held, terminal 75 is live only in vehicles that retain it: in brackets.
          const live = [...LINES.filter((line) => isLive(line, state)), ...(position === 'Held' ? ['(75)'] : [])];
          return (
            <label key={position} className={position === key ? 'key-stop on' : 'key-stop'} title={KEY_MEANING[position]}>
              <input type="radio" name={name} value={position} checked={position === key} onChange={() => setKey(position)} />
              <span className="key-name">{position}</span>
              <span className="key-dot" aria-hidden="true" />
              <span className="key-live">
                <span className="hidden-text">live: </span>
                {live.join(' ')}
              </span>
            </label>
          );
        })}
        <span className="key-barrel" aria-hidden="true">
          <svg viewBox="0 0 32 32" aria-hidden="true">
            <circle cx="16" cy="16" r="14" fill="var(--accent)" stroke="var(--paper)" strokeWidth="2.5" />
            <g className="key-slot" style={{ transform: `rotate(${BARREL[key]}deg)` }}>
              <rect x="14.2" y="7.5" width="3.6" height="17" rx="1.8" fill="var(--on-accent)" />
            </g>
          </svg>
        </span>
      </div>
    </fieldset>
  );
}
