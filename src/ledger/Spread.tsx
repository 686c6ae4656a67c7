import { amps, NONE, share, significant, volts } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { Term } from '../faces/Term.tsx';
import { app, useApp } from '../state/store.ts';
import { runOnDemand } from './onDemand.ts';

/** What the figures come to when every part is picked at random within its tolerance. */
export function Spread() {
  const { result, busy, error } = useApp((s) => s.spread);
  const isOld = useApp((s) => s.spread.result !== null && s.spread.resultFor !== s.plan);
  return (
    <Section title="Spread over tolerances" aside={result ? <span className="note">seed {result.seed}</span> : null}>
      <p className="note">
        Every part is picked at random within its <Term word="tolerance">tolerance</Term>, again and again; supply and heat are those that are worst for each
        figure.
      </p>
      <div className="row">
        {busy ? (
          <>
            <label className="spread-progress">
              <span className="hidden-text">Spread</span>
              <progress value={result?.done ?? 0} max={result?.runs ?? 1} /> {result ? `${result.done} of ${result.runs} picks` : 'starting …'}
            </label>
            <button type="button" className="btn" onClick={() => app.getState().cancel('spread')}>
              Stop
            </button>
          </>
        ) : (
          <button type="button" className="btn" onClick={() => runOnDemand('spread')}>
            {result ? 'Pick again' : 'Pick parts at random'}
          </button>
        )}
      </div>
      {error !== null ? (
        <p className="note wrong" role="alert">
          {error}
        </p>
      ) : null}
      {result && !busy && result.done < result.runs ? (
        <p className="note wrong">
          Stopped after {result.done} of {result.runs} picks: the rare ends are missing.
        </p>
      ) : null}
      {isOld && !busy ? <p className="note wrong">Of the plan before its last change.</p> : null}
      {result && result.rows.length > 0 ? <Rows /> : null}
    </Section>
  );
}

function Rows() {
  const result = useApp((s) => s.spread.result);
  if (!result) return null;
  return (
    <div className="scroll-x">
      <table className="plain spread">
        <caption className="hidden-text">Percentiles</caption>
        <thead>
          <tr>
            {['5 %', 'half', '95 %', 'limit', 'beyond'].map((title) => (
              <th key={title} scope="col" className="num">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        {result.rows.map((r) => (
          <tbody key={r.id}>
            <tr>
              <th scope="rowgroup" colSpan={5}>
                {r.label}{' '}
                <span className="note">
                  {figure(r.least, r.unit)} to {figure(r.most, r.unit)}
                </span>
              </th>
            </tr>
            <tr>
              <td className="num">{figure(r.p5, r.unit)}</td>
              <td className="num">{figure(r.p50, r.unit)}</td>
              <td className="num">{figure(r.p95, r.unit)}</td>
              <td className="num">{r.limit === null ? NONE : figure(r.limit, r.unit)}</td>
              <td className={r.beyond !== null && r.beyond > 0 ? 'num lvl-fault' : 'num'}>{beyond(r.beyond)}</td>
            </tr>
          </tbody>
        ))}
      </table>
    </div>
  );
}

function beyond(part: number | null): string {
  if (part === null) return NONE;
  return part === 0 ? 'none' : share(part);
}

function figure(value: number, unit: string): string {
  if (unit === 'V') return volts(value);
  if (unit === 'A') return amps(value);
  return `${significant(value, 2)}\u00a0${unit}`;
}
