import { KEY_POSITIONS } from '../analysis/types.ts';
import { amps, days, volts } from '../faces/format.ts';
import { Term } from '../faces/Term.tsx';
import { useApp } from '../state/store.ts';
import { arrivalName } from './lookup.ts';

/** The two figures asked for most, while nothing is selected: what the computer gets, and what parking costs. */
export function Glance() {
  const analysis = useApp((s) => s.results?.analysis);
  const plan = useApp((s) => s.plan);
  const key = useApp((s) => s.keyPosition);
  if (!analysis || !plan) return null;
  const at = KEY_POSITIONS.findIndex((k) => k.key === key);
  const arrival = analysis.arrivals.find((a) => plan.parts[a.part]?.kind === 'computer') ?? analysis.arrivals[0];
  const v = arrival?.typical[at] ?? Number.NaN;
  return (
    <>
      <dl className="glance">
        {arrival ? (
          <div>
            <dt>
              {arrivalName(plan, arrival)} gets, {key}
            </dt>
            <dd>
              {Number.isNaN(v) ? 'nothing' : volts(v)}
              {arrival.worstLow ? <span className="note"> least {volts(arrival.worstLow.v)}</span> : null}
            </dd>
          </div>
        ) : null}
        <div>
          <dt>
            <Term word="parked draw">Parked draw</Term> of this build
          </dt>
          <dd>
            {amps(analysis.parked.buildA)}
            <span className="note"> lasts {days(analysis.parked.days)}</span>
          </dd>
        </div>
      </dl>
      <p className="note">Choose a wire or a part to see its figures at every key position.</p>
    </>
  );
}
