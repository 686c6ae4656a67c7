import { useEffect, useId } from 'react';
import type { ParkedWeeks } from '../analysis/time/types.ts';
import { days, share, significant } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { Term } from '../faces/Term.tsx';
import { app, useApp } from '../state/store.ts';
import { STATED_C } from '../trade/battery.ts';
import { selectPart } from './actions.ts';

const W = 320;
const H = 132;
const LEFT = 44;
const RIGHT = 10;
const TOP = 8;
const BOTTOM = 24;

/** How the battery runs down while the vehicle stands, with and without the build, and what one change would buy. */
export function Weeks() {
  const { result, error } = useApp((s) => s.weeks);
  const standing = useApp((s) => s.plan?.vehicle.standingDays ?? 0);
  const parkedC = useApp((s) => s.plan?.vehicle.parkedC) ?? STATED_C;
  useEffect(() => app.getState().watch('weeks'), []);
  if (error !== null)
    return (
      <Section title="Standing for weeks">
        <p className="note wrong" role="alert">
          {error}
        </p>
      </Section>
    );
  if (!result) return null;
  const { daysToLimit, daysToLimitWithout, startLimit, gains } = result;
  return (
    <Section title="Standing for weeks">
      <p>
        Starts the engine for <b>{days(daysToLimit)}</b>; {days(daysToLimitWithout)} without this build.{' '}
        {daysToLimit < standing ? (
          <span className="lvl-fault">It is meant to stand for {days(standing)}.</span>
        ) : (
          <span className="note">It is meant to stand for {days(standing)}.</span>
        )}
      </p>
      <Curve weeks={result} standing={standing} />
      <p className="note">
        From a full battery at {parkedC} °C, all delays run out. Under {share(startLimit)} of full it may no longer turn the{' '}
        <Term word="cranking">starter</Term>.
      </p>
      {gains.length > 0 ? (
        <table className="plain">
          <caption className="hidden-text">What one change would buy</caption>
          <thead>
            <tr>
              <th scope="col">One change</th>
              <th scope="col" className="num">
                buys
              </th>
            </tr>
          </thead>
          <tbody>
            {gains.map((g) => (
              <tr key={g.what}>
                <th scope="row">
                  {g.part === null ? (
                    g.what
                  ) : (
                    <button type="button" className="link" onClick={() => g.part !== null && selectPart(g.part)}>
                      {g.what}
                    </button>
                  )}
                </th>
                <td className="num">{Number.isFinite(g.days) ? `${significant(g.days, 2)} d` : 'no end'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : (
        <p className="note">No single part of this build costs a tenth of a day: the vehicle’s own draw decides.</p>
      )}
    </Section>
  );
}

function Curve({ weeks, standing }: { readonly weeks: ParkedWeeks; readonly standing: number }) {
  const id = useId();
  const { days: at, chargeWith, chargeWithout, startLimit, daysToLimit, daysToLimitWithout } = weeks;
  const last = at.at(-1) ?? 1;
  const x = (d: number) => LEFT + (Math.min(d, last) / last) * (W - LEFT - RIGHT);
  const y = (c: number) => TOP + (1 - c) * (H - TOP - BOTTOM);
  const path = (charge: Float64Array) => Array.from(at, (d, i) => `${x(d).toFixed(1)},${y(charge[i] ?? 0).toFixed(1)}`).join(' ');
  const chargeAt = (part: number, charge: Float64Array) => charge[Math.round(part * (charge.length - 1))] ?? 0;
  // Two lines that cannot be told apart share one name.
  const isApart = y(chargeAt(1, chargeWith)) - y(chargeAt(1, chargeWithout)) > 3;
  const step = [1, 2, 7, 14, 28, 56, 91, 182].find((s) => last / s <= 6) ?? 364;
  const ticks = Array.from({ length: Math.floor(last / step) + 1 }, (_, i) => i * step);
  return (
    <svg className="weeks" viewBox={`0 0 ${W} ${H}`} role="img" aria-labelledby={id}>
      <title id={id}>
        State of charge against days: start limit reached after {days(daysToLimit)}, without this build after {days(daysToLimitWithout)}
      </title>
      {[1, 0.5, 0].map((c) => (
        <g key={c}>
          <line x1={LEFT} x2={W - RIGHT} y1={y(c)} y2={y(c)} className="weeks-grid" />
          <text x={LEFT - 5} y={y(c) + 4} textAnchor="end">
            {c * 100}
            {c === 1 ? ' %' : ''}
          </text>
        </g>
      ))}
      {ticks.map((d) => (
        <g key={d}>
          <line x1={x(d)} x2={x(d)} y1={H - BOTTOM} y2={H - BOTTOM + 4} className="weeks-axis" />
          <text x={x(d)} y={H - 7} textAnchor={d === 0 ? 'start' : 'middle'}>
            {d === 0 ? '0 days' : d}
          </text>
        </g>
      ))}
      <line x1={LEFT} x2={W - RIGHT} y1={y(startLimit)} y2={y(startLimit)} className="weeks-limit" />
      <text x={LEFT + 4} y={y(startLimit) + 13}>
        start limit
      </text>
      {standing > 0 && standing <= last ? (
        <g>
          <line x1={x(standing)} x2={x(standing)} y1={TOP} y2={H - BOTTOM} className="weeks-standing" />
          <text x={x(standing) + (standing > last / 2 ? -4 : 4)} y={H - BOTTOM - 5} textAnchor={standing > last / 2 ? 'end' : 'start'}>
            meant to stand
          </text>
        </g>
      ) : null}
      <polyline points={path(chargeWithout)} className="weeks-without" />
      <polyline points={path(chargeWith)} className="weeks-with" />
      <text x={x(0.3 * last)} y={y(chargeAt(0.3, chargeWithout)) - 5}>
        {isApart ? 'without' : 'with and without'}
      </text>
      {isApart ? (
        <text x={x(0.4 * last)} y={y(chargeAt(0.4, chargeWith)) + 14} textAnchor="end" className="weeks-ours">
          with this build
        </text>
      ) : null}
      <circle cx={x(daysToLimit)} cy={y(startLimit)} r="3.5" className="weeks-dot" />
    </svg>
  );
}
