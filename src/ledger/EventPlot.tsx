import { useId } from 'react';
import type { EventReport } from '../analysis/time/types.ts';
import { significant } from '../faces/format.ts';
import { EVENT_WORDS } from '../sheet/timing/events.ts';

const W = 320;
const H = 120;
const LEFT = 44;
const RIGHT = 12;
const TOP = 10;
const BOTTOM = 24;
/** Of a long event the beginning is shown, s: an hour at one level says nothing more. */
const MOST_S = 90;
/** The spike of a coil is over long before the supply comes back, s. */
const SPIKE_S = 0.01;

/** The supply of one event against time. */
export function EventPlot({ event }: { readonly event: EventReport }) {
  const id = useId();
  const { tS, volts } = event.supply;
  const endS = shownUntil(event);
  const count = Math.max(2, tS.findIndex((t) => t > endS) < 0 ? tS.length : tS.findIndex((t) => t > endS));
  const shown = volts.subarray(0, count);
  const most = Math.max(0, ...shown);
  const least = Math.min(0, ...shown);
  const x = (t: number) => LEFT + (Math.min(t, endS) / endS) * (W - LEFT - RIGHT);
  const y = (v: number) => TOP + ((most - v) / (most - least || 1)) * (H - TOP - BOTTOM);
  const [unit, scale] = endS < 0.001 ? (['µs', 1e6] as const) : endS < 1 ? (['ms', 1e3] as const) : (['s', 1] as const);
  const step = nice(endS * scale);
  const ticks = Array.from({ length: Math.floor((endS * scale) / step + 1e-9) + 1 }, (_, k) => k * step);
  const levels = [...new Set([most, volts[0] ?? 0, least])].filter((v, k, list) => k === 0 || list.slice(0, k).every((w) => Math.abs(y(v) - y(w)) > 13));
  const points = Array.from(shown, (v, k) => `${x(tS[k] ?? 0).toFixed(1)},${y(v).toFixed(1)}`).join(' ');
  return (
    <svg className="weeks" viewBox={`0 0 ${W} ${H}`} role="img" aria-labelledby={id}>
      <title id={id}>
        {EVENT_WORDS[event.profile]}: supply at the battery’s posts, from {significant(volts[0] ?? 0, 3)} V, at most {significant(most, 3)} V, at least{' '}
        {significant(Math.min(...shown), 3)} V
      </title>
      {levels.map((v) => (
        <g key={v}>
          <line x1={LEFT} x2={W - RIGHT} y1={y(v)} y2={y(v)} className="weeks-grid" />
          <text x={LEFT - 5} y={y(v) + 4} textAnchor="end">
            {significant(v, 3)} V
          </text>
        </g>
      ))}
      {ticks.map((t) => (
        <g key={t}>
          <line x1={x(t / scale)} x2={x(t / scale)} y1={H - BOTTOM} y2={H - BOTTOM + 4} className="weeks-axis" />
          <text x={x(t / scale)} y={H - 7} textAnchor={t === 0 ? 'start' : t / scale > 0.95 * endS ? 'end' : 'middle'}>
            {t === 0 ? `0 ${unit}` : significant(t, 3)}
          </text>
        </g>
      ))}
      <polyline points={points} className="weeks-with" />
    </svg>
  );
}

/** The part of an event in which its supply moves, with some room after it. */
function shownUntil({ profile, supply: { tS, volts } }: EventReport): number {
  if (profile === 'pulse-1') return SPIKE_S;
  const lastS = tS.at(-1) ?? 1;
  const most = Math.max(...volts);
  const least = Math.min(...volts);
  const endV = volts.at(-1) ?? 0;
  let k = volts.length - 1;
  while (k > 1 && Math.abs(volts[k - 1]! - endV) < 0.02 * (most - least)) k--;
  const movedS = tS[k] ?? lastS;
  return Math.min(lastS, MOST_S, Math.max(1.15 * movedS, lastS / 1000));
}

/** Distance of marks: 1, 2 or 5 times a power of ten, five marks or fewer. */
function nice(span: number): number {
  const raw = span / 5;
  const power = 10 ** Math.floor(Math.log10(raw));
  return ([1, 2, 5, 10].find((k) => k * power >= raw - 1e-12) ?? 10) * power;
}
