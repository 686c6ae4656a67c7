import { useState } from 'react';
import { type Arrival, KEY_POSITIONS, type LoadRow } from '../analysis/types.ts';
import { amps, ampsShown, days, volts, watts } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { Term } from '../faces/Term.tsx';
import { STATE_WORDS } from '../faces/words.ts';
import { useApp } from '../state/store.ts';
import { selectPart } from './actions.ts';
import { Events } from './Events.tsx';
import { arrivalName } from './lookup.ts';
import { Spread } from './Spread.tsx';
import { Weeks } from './Weeks.tsx';

/** What arrives, what is drawn, and what the parked battery loses. */
export function Supply({ onShowFinding }: { onShowFinding(key: string): void }) {
  const analysis = useApp((s) => s.results?.analysis);
  if (!analysis) return null;
  return (
    <>
      <Arrives rows={analysis.arrivals} />
      <Parked />
      <Weeks />
      <Loads rows={analysis.loads} />
      <Events onShowFinding={onShowFinding} />
      <Spread />
    </>
  );
}

function useKeyIndex(): number {
  const key = useApp((s) => s.keyPosition);
  return KEY_POSITIONS.findIndex((k) => k.key === key);
}

function Arrives({ rows }: { readonly rows: readonly Arrival[] }) {
  const at = useKeyIndex();
  const key = useApp((s) => s.keyPosition);
  const plan = useApp((s) => s.plan);
  if (!plan || rows.length === 0) return <p className="note">Nothing on the plan wants a supply yet.</p>;
  return (
    <Section title="What arrives" aside={<span className="note">{key}, typical</span>}>
      <ul className="arrives">
        {rows.map((row) => {
          const v = row.typical[at] ?? Number.NaN;
          return (
            <li key={`${row.part}:${row.plus}`}>
              <button type="button" className="link" onClick={() => selectPart(row.part)}>
                {arrivalName(plan, row)}
              </button>
              <b className="arrives-v">{Number.isNaN(v) ? 'nothing' : volts(v)}</b>
              <Worst row={row} />
            </li>
          );
        })}
      </ul>
    </Section>
  );
}

/** The worst case of a load in one line; which tolerances and which key position made it, on asking. */
function Worst({ row }: { readonly row: Arrival }) {
  const { worstLow, worstHigh, minV, maxV } = row;
  if (!worstLow && !worstHigh) return null;
  const low = worstLow !== null && minV !== null && worstLow.v < minV;
  const high = worstHigh !== null && maxV !== null && worstHigh.v > maxV;
  const corner = (worst: NonNullable<Arrival['worstLow']>) => `in ${STATE_WORDS[worst.state]}${worst.corner === '' ? '' : `, ${worst.corner}`}`;
  return (
    <details>
      <summary>
        {worstLow ? (
          <span className={low ? 'lvl-fault' : ''}>
            least {volts(worstLow.v)}
            {low ? `, under its ${volts(minV)}` : ''}
          </span>
        ) : null}
        {worstLow && worstHigh ? ' · ' : null}
        {worstHigh ? (
          <span className={high ? 'lvl-fault' : ''}>
            most {volts(worstHigh.v)}
            {high ? `, over its ${volts(maxV)}` : ''}
          </span>
        ) : null}
      </summary>
      {worstLow ? <p className="note">Least {corner(worstLow)}.</p> : null}
      {worstHigh ? <p className="note">Most {corner(worstHigh)}.</p> : null}
    </details>
  );
}

function Parked() {
  const parked = useApp((s) => s.results?.analysis.parked);
  const ah = useApp((s) => s.plan?.vehicle.batteryAh);
  if (!parked) return null;
  const shown = ampsShown(parked.buildA);
  const top = Math.max(...parked.shares.map((s) => s.amp), 0);
  return (
    <Section title="Parked" aside={<span className="note">all delays run out</span>}>
      <div className="figures">
        <div>
          <div className="big">
            {shown.value}
            <small>{shown.unit}</small>
          </div>
          <div className="note">
            this build, <Term word="parked draw">parked draw</Term>
          </div>
        </div>
        <div>
          <div className="big">{days(parked.days)}</div>
          <div className="note">
            until a {ah} Ah battery is low; {days(parked.daysWithout)} without this build
          </div>
        </div>
      </div>
      <table className="six shares">
        <caption className="hidden-text">Who draws it</caption>
        <tbody>
          {parked.shares.map((s) => (
            <tr key={s.part}>
              <th scope="row">
                <button type="button" className="link" onClick={() => selectPart(s.part)}>
                  {s.name}
                </button>
              </th>
              <td>
                <span className="six-bar" style={{ inlineSize: `${(top > 0 ? (s.amp / top) * 100 : 0).toFixed(1)}%` }} aria-hidden="true" />
                <span>{amps(s.amp)}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="note">
        Beside it: the sleeping vehicle {amps(parked.vehicleA)}, the battery itself {amps(parked.selfA)}.
      </p>
    </Section>
  );
}

const COLUMNS = [
  { id: 'name', label: 'Load' },
  { id: 'amps', label: 'Now' },
  { id: 'watts', label: 'Power' },
  { id: 'heat', label: 'Heating' },
  { id: 'peak', label: 'Peak' },
] as const;
type Column = (typeof COLUMNS)[number]['id'];

function Loads({ rows }: { readonly rows: readonly LoadRow[] }) {
  const at = useKeyIndex();
  const key = useApp((s) => s.keyPosition);
  const [sort, setSort] = useState<{ readonly by: Column; readonly down: boolean }>({ by: 'heat', down: true });
  if (rows.length === 0) return null;
  const worth = (row: LoadRow): number | string =>
    sort.by === 'name' ? row.name : { amps: row.amps[at] ?? Number.NaN, watts: row.watts[at] ?? Number.NaN, heat: row.heatA, peak: row.peakA }[sort.by];
  const sorted = [...rows].sort((a, b) => order(worth(a), worth(b)) * (sort.down ? -1 : 1));
  return (
    <Section title="Loads" aside={<span className="note">{key}, typical</span>}>
      <div className="scroll-x">
        <table className="plain loads">
          <thead>
            <tr>
              {COLUMNS.map((c) => (
                <th
                  key={c.id}
                  scope="col"
                  className={c.id === 'name' ? '' : 'num'}
                  aria-sort={sort.by === c.id ? (sort.down ? 'descending' : 'ascending') : 'none'}
                >
                  <button type="button" className="sort" onClick={() => setSort({ by: c.id, down: sort.by === c.id ? !sort.down : c.id !== 'name' })}>
                    {c.label}
                    <span aria-hidden="true">{sort.by === c.id ? (sort.down ? ' ↓' : ' ↑') : ''}</span>
                  </button>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {sorted.map((row) => (
              <tr key={`${row.part}:${row.name}`}>
                <th scope="row">
                  <button type="button" className="link" onClick={() => selectPart(row.part)}>
                    {row.name}
                  </button>
                </th>
                <td className="num">{amps(row.amps[at] ?? Number.NaN)}</td>
                <td className="num">{watts(row.watts[at] ?? Number.NaN)}</td>
                <td className="num">{amps(row.heatA)}</td>
                <td className="num">{amps(row.peakA)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="note">
        <Term word="heating current">Heating</Term> sizes wires and fuses; <Term word="peak current">peak</Term> is the most that lasts a millisecond.
      </p>
    </Section>
  );
}

function order(a: number | string, b: number | string): number {
  if (typeof a === 'string' || typeof b === 'string') return String(a).localeCompare(String(b));
  if (Number.isNaN(a) || Number.isNaN(b)) return Number.isNaN(a) ? (Number.isNaN(b) ? 0 : -1) : 1;
  return a - b;
}
