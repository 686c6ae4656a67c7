import { useEffect, useId, useRef, useState } from 'react';
import { fitLeads, GROUND_RULES, GUIDE_STEPS, type GuideStep, LEAVE_ALONE, type LeadRow, READINGS_WANTED } from '../trade/guide.ts';
import { parseAmount } from '../trade/preferred.ts';
import { RadioPlug } from './RadioPlug.tsx';
import './guide.css';

const USE: Readonly<Record<LeadRow['use'], string>> = {
  supply: 'May feed the build',
  sense: 'For sensing only',
  trigger: 'Switches something small',
  return: 'The way back',
  leave: 'Leave it alone',
};

/** "What is this wire?": look first, then a meter in each key position, then what the lead most likely is. */
export default function LeadGuide({ onBack }: { onBack(): void }) {
  const back = useRef<HTMLButtonElement>(null);
  const [looked, setLooked] = useState<readonly string[] | null>(null);
  useEffect(() => back.current?.focus(), []);
  const stop = looked !== null && looked.length > 0;
  return (
    <main className="guide" aria-label="What is this wire?">
      <header className="sheet-bar">
        <button ref={back} type="button" className="btn" onClick={onBack}>
          ‹ Back
        </button>
        <h1>What is this wire?</h1>
      </header>
      <div className="guide-body">
        <Look looked={looked} onLooked={setLooked} />
        {stop || looked === null ? null : (
          <>
            <section aria-labelledby="guide-rules">
              <h2 id="guide-rules">Before the first reading</h2>
              <ul className="bullets">
                {GROUND_RULES.map((rule) => (
                  <li key={rule}>{rule}</li>
                ))}
              </ul>
            </section>
            <Measure />
            <RadioPlug />
          </>
        )}
        <Table />
      </div>
    </main>
  );
}

function Look({ looked, onLooked }: { readonly looked: readonly string[] | null; onLooked(signs: readonly string[]): void }) {
  const signs = LEAVE_ALONE.filter((s) => looked?.includes(s.id));
  const none = looked !== null && looked.length === 0;
  return (
    <section aria-labelledby="guide-look">
      <h2 id="guide-look">First look, without a meter</h2>
      <p>Does the lead, or anything in its plug or bundle, look like one of these?</p>
      <ul className="guide-signs">
        {LEAVE_ALONE.map((s) => (
          <li key={s.id}>
            <label className="check">
              <input
                type="checkbox"
                checked={looked?.includes(s.id) ?? false}
                onChange={(e) => onLooked(e.currentTarget.checked ? [...(looked ?? []), s.id] : (looked ?? []).filter((id) => id !== s.id))}
              />
              <span>
                <b>{s.title}</b>
                <span className="note"> {s.why}</span>
              </span>
            </label>
          </li>
        ))}
        <li>
          <label className="check">
            <input type="checkbox" checked={none} onChange={() => onLooked([])} />
            <b>None of these</b>
          </label>
        </li>
      </ul>
      {signs.length > 0 ? (
        <p className="guide-stop" role="alert">
          <b>Leave it.</b> Do not measure, unplug or tap it. Choose another lead, or ask somebody who is qualified for that system.
        </p>
      ) : null}
    </section>
  );
}

function Measure() {
  const [systemV, setSystemV] = useState<12 | 24>(12);
  const [typed, setTyped] = useState<Readonly<Partial<Record<GuideStep, string>>>>({});
  const name = useId();
  const readings: Partial<Record<GuideStep, number>> = {};
  const wrong = new Set<GuideStep>();
  for (const { id } of GUIDE_STEPS) {
    const text = typed[id]?.trim() ?? '';
    if (text === '') continue;
    const v = parseAmount(text, 'V');
    if (v === null || !Number.isFinite(v) || Math.abs(v) > 60) wrong.add(id);
    else readings[id] = v;
  }
  const { fits, entered, sure } = fitLeads(readings, systemV);
  const any = Object.keys(readings).length > 0;
  return (
    <section aria-labelledby="guide-measure">
      <h2 id="guide-measure">What the meter reads</h2>
      <p>Volts against the battery’s negative post, at the plug from the wire side. Six of the first eight are needed before a lead may be called known.</p>
      <fieldset className="choice">
        <legend className="hidden-text">System</legend>
        {([12, 24] as const).map((v) => (
          <label key={v}>
            <input type="radio" name={name} checked={systemV === v} onChange={() => setSystemV(v)} />
            {v} V vehicle
          </label>
        ))}
      </fieldset>
      <div className="guide-measure">
        <ol className="guide-steps">
          {GUIDE_STEPS.map((step) => (
            <li key={step.id}>
              <label htmlFor={`${name}-${step.id}`}>{step.title}</label>
              <span>
                <input
                  id={`${name}-${step.id}`}
                  className="input"
                  inputMode="decimal"
                  autoComplete="off"
                  value={typed[step.id] ?? ''}
                  aria-invalid={wrong.has(step.id)}
                  onChange={(e) => setTyped({ ...typed, [step.id]: e.currentTarget.value })}
                />{' '}
                V
              </span>
              {wrong.has(step.id) ? (
                <span className="note wrong" role="alert">
                  A reading in volts between −60 and 60, please.
                </span>
              ) : null}
            </li>
          ))}
        </ol>
        <div className="guide-fit card" role="status" aria-label="What it may be">
          {!any ? (
            <p className="note">What fits shows here as you type.</p>
          ) : fits.length === 0 ? (
            <p>
              <b>Nothing in the guide reads like that.</b> Measure again; if the readings stand, leave this lead alone.
            </p>
          ) : (
            <>
              <p>
                <b>{sure ? 'It reads like' : fits.length === 1 ? 'So far it reads like' : `So far ${fits.length} fit`}</b>
                <span className="note">
                  {' '}
                  {entered} of {READINGS_WANTED} readings that count
                </span>
              </p>
              <ul className="plain-list">
                {fits.map((row) => (
                  <Row key={row.id} row={row} />
                ))}
              </ul>
              {sure ? null : (
                <p className="note">Not known yet: {entered < READINGS_WANTED ? 'take more readings' : 'take the readings that tell these apart'}.</p>
              )}
            </>
          )}
          {any ? (
            <button type="button" className="btn quiet" onClick={() => setTyped({})}>
              Clear the readings
            </button>
          ) : null}
        </div>
      </div>
    </section>
  );
}

function Row({ row }: { readonly row: LeadRow }) {
  return (
    <li>
      <b>{row.title}</b> <span className={row.use === 'leave' ? 'guide-use leave' : 'guide-use'}>{USE[row.use]}</span>
      <p className="note">
        {row.how} {row.warning ?? ''}
      </p>
    </li>
  );
}

const COLUMNS = GUIDE_STEPS.filter((s) => s.counts);

function Table() {
  return (
    <section aria-labelledby="guide-table">
      <h2 id="guide-table">Leads behind a radio, by what they read</h2>
      <p className="note">
        Typical for a 12 V vehicle; what follows the supply doubles at 24 V. A dash = tells nothing. The vehicle maker’s own diagram comes first.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways can be reached by the keyboard */}
      <section className="guide-scroll" tabIndex={0} aria-label="Table of leads">
        <table>
          <thead>
            <tr>
              <th scope="col">Lead</th>
              {COLUMNS.map((s) => (
                <th key={s.id} scope="col">
                  {s.title}
                </th>
              ))}
              <th scope="col">Use</th>
            </tr>
          </thead>
          <tbody>
            {LEADS_BY_USE.map((row) => (
              <tr key={row.id}>
                <th scope="row">{row.title}</th>
                {COLUMNS.map((s) => (
                  <td key={s.id}>{rangeText(row.reads[s.id])}</td>
                ))}
                <td>{USE[row.use]}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}

const LEADS_BY_USE: readonly LeadRow[] = fitLeads({}, 12).fits;

/** "11–13.6", "dead" or a dash. */
function rangeText(range: readonly [number, number] | undefined): string {
  if (!range) return '–';
  return range[1] < 1 ? 'dead' : `${range[0]}–${range[1]} V`;
}
