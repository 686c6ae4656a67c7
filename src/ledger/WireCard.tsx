import { useState } from 'react';
import { meterVolts } from '../analysis/meterGround.ts';
import { KEY_POSITIONS, type WireReport } from '../analysis/types.ts';
import { amps, ampsShown, area, drop, dropShown, length, type Shown, share, volts, watts, wattsPerLength } from '../faces/format.ts';
import { Icon } from '../faces/Icon.tsx';
import { Term } from '../faces/Term.tsx';
import { where } from '../faces/words.ts';
import { removeItems, setWire } from '../plan/edits.ts';
import type { Id, Wire } from '../plan/types.ts';
import { shownAnalysis } from '../state/shown.ts';
import { useApp } from '../state/store.ts';
import { colourText } from '../trade/colours.ts';
import { awgLabel } from '../trade/conductors.ts';
import { change, selectPart } from './actions.ts';
import { FindingLinks } from './FindingLinks.tsx';
import { endName, groundName, partName, readingOf, sixFigures, wireFigures, wireName } from './lookup.ts';
import { NoteField } from './NoteField.tsx';
import { SixBars } from './SixBars.tsx';
import { Swatch } from './Swatch.tsx';
import { WireSettings } from './WireSettings.tsx';
import { wayText } from './way.ts';

const FREE_WAY = 'Let the wire find its own way';
const SHOWN = [
  { id: 'load', label: 'Load' },
  { id: 'drop', label: 'Drop' },
  { id: 'heat', label: 'Heat' },
] as const;

/** Everything about one wire: what it carries in every key position, its limit, what protects it, its settings. */
export function WireCard({ id, onShowFinding }: { readonly id: Id; onShowFinding(key: string): void }) {
  const results = useApp((s) => s.results);
  const analysis = useApp(shownAnalysis);
  const plan = useApp((s) => s.plan);
  const key = useApp((s) => s.keyPosition);
  const band = useApp((s) => s.band);
  const units = useApp((s) => s.units);
  const [show, setShow] = useState<(typeof SHOWN)[number]['id']>('load');
  const typed = plan?.wires[id];
  if (!plan || !typed) return null;
  const filled = results?.filled.wires[id];
  const report = analysis?.wires[id];
  const wire = filled ?? typed;

  const head = (
    <header className="card-head">
      <h3>
        <Swatch {...(wire.colour ? { colour: wire.colour } : {})} {...(wire.stripe ? { stripe: wire.stripe } : {})} />
        Wire {results ? wireName(results.filled, id) : ''}
      </h3>
      <button
        type="button"
        className="btn quiet icon"
        title="Remove this wire"
        aria-label="Remove this wire"
        onClick={() => change(removeItems(plan, [], [id]))}
      >
        <Icon name="trash" size={18} />
      </button>
    </header>
  );
  const route = (
    <p className="soft">
      <button type="button" className="link" onClick={() => selectPart(wire.from.part)}>
        {endName(plan, wire.from)}
      </button>
      {' → '}
      <button type="button" className="link" onClick={() => selectPart(wire.to.part)}>
        {endName(plan, wire.to)}
      </button>
    </p>
  );
  if (!results || !analysis || !report || !filled)
    return (
      <article className="card" aria-label="Selected wire">
        {head}
        {route}
        <p className="note">Being worked out …</p>
      </article>
    );

  const state = KEY_POSITIONS.find((k) => k.key === key)?.state ?? 'RUN_CHARGING';
  const reading = readingOf(analysis, state, band);
  const now = wireFigures(analysis, filled, reading);
  const begin = meterVolts(results.filled, analysis, reading, `${filled.from.part}.${filled.from.terminal}`);
  const six = sixFigures(analysis, filled, band);
  const worst = where(report.worstState, report.worstBand);
  const nominal = report.nominalV;
  const shareNow = nominal !== null && nominal > 0 ? share(now.dropV / nominal) : null;

  return (
    <article className="card" aria-label={`Selected wire ${wireName(results.filled, id)}`}>
      {head}
      {route}
      <p className="soft">
        {filled.colour ? `${colourText(filled.colour, filled.stripe).words} · ` : ''}
        {area(report.areaMm2, awgLabel(report.areaMm2), units)} · {length(report.lengthM, units)}
      </p>
      <FindingLinks id={id} onShowFinding={onShowFinding} />
      {typed.bends ? (
        <p className="row">
          <button
            type="button"
            className="btn"
            onClick={() => change({ ...setWire(plan, id, { bends: undefined }), intent: 'wire.straighten', label: FREE_WAY })}
          >
            Let it find its own way
          </button>
          <span className="note">Bent by hand.</span>
        </p>
      ) : null}
      <div className="figures">
        <BigFigure shown={ampsShown(now.ampsA)} under={`load: ${key}, ${band}`} />
        <BigFigure shown={dropShown(now.dropV)} under={`drop${shareNow === null ? '' : `: ${shareNow} of ${nominal} V`}`} />
      </div>
      <fieldset className="choice small">
        <legend className="hidden-text">Figure shown at each key position</legend>
        {SHOWN.map((s) => (
          <label key={s.id}>
            <input type="radio" name="wire-figure" checked={show === s.id} onChange={() => setShow(s.id)} />
            {s.label}
          </label>
        ))}
      </fieldset>
      {show === 'load' ? <SixBars label="Load" chosen={key} values={six.map((f) => f.ampsA)} text={amps} /> : null}
      {show === 'drop' ? <SixBars label="Drop" chosen={key} values={six.map((f) => f.dropV)} text={drop} /> : null}
      {show === 'heat' ? <SixBars label="Heat" chosen={key} values={six.map((f) => f.heatW)} text={watts} /> : null}

      <Limit report={report} worst={worst} />
      <dl className="facts">
        <dt>Volts at its beginning</dt>
        <dd>
          {Number.isNaN(begin.v) ? (reading?.status === 'solved' ? 'floating' : 'not computed') : volts(begin.v)}
          {Number.isNaN(begin.v) ? null : <span className="note"> against {groundName(plan, begin.ground)}</span>}
        </dd>
        <dt>
          <Term word="drop">Greatest drop</Term>
        </dt>
        <dd>
          {drop(report.worstDropV)}
          {report.worstDropShare === null ? '' : ` (${share(report.worstDropShare)})`}
        </dd>
        <dt>Greatest heat</dt>
        <dd>
          {watts(report.worstW)}, {wattsPerLength(report.worstWPerM, units)}
        </dd>
        <Protection report={report} wire={filled} />
        <dt>Way</dt>
        <dd>{wayText(plan, typed, units) ?? 'no run joins its zones: measure one under Vehicle, or type its length'}</dd>
      </dl>
      <WireSettings wire={typed} />
      <NoteField key={id} kind="wire" id={id} />
    </article>
  );
}

function BigFigure({ shown, under }: { readonly shown: Shown; readonly under: string }) {
  return (
    <div>
      <div className="big">
        {shown.value}
        <small>{shown.unit}</small>
      </div>
      <div className="note">{under}</div>
    </div>
  );
}

function Limit({ report, worst }: { readonly report: WireReport; readonly worst: string }) {
  const used = report.limitA > 0 ? report.heatA / report.limitA : Number.NaN;
  const over = used > 1;
  return (
    <div className="limit">
      <div className={over ? 'limit-bar over' : 'limit-bar'} aria-hidden="true">
        <span style={{ inlineSize: `${Math.min(100, Math.max(0, used * 100)).toFixed(1)}%` }} />
      </div>
      <p className="note">
        Over a minute it carries {amps(report.heatA)} at most: {share(used)} of the <Term word="planning limit">planning limit</Term> {amps(report.limitA)}{' '}
        (table {amps(report.baseA)} × {report.kT.toFixed(2)} because it lies at {report.zoneC} °C × {report.kN.toFixed(2)} for the wires beside it). For a
        moment it may be {amps(report.worstA)} ({worst}).
      </p>
    </div>
  );
}

function Protection({ report, wire }: { readonly report: WireReport; readonly wire: Wire }) {
  const plan = useApp((s) => s.plan);
  const units = useApp((s) => s.units);
  const end = (at: 'from' | 'to') => {
    const { maxA, byPart, byName } = report.protection[at];
    const what = !Number.isFinite(maxA) ? 'nothing limits it' : maxA === 0 ? 'nothing feeds it from there' : `${byName}, at most ${amps(maxA)}`;
    return (
      <dd>
        <span className="soft">From {plan ? partName(plan, wire[at].part) : at}: </span>
        {byPart ? (
          <button type="button" className="link" onClick={() => selectPart(byPart)}>
            {what}
          </button>
        ) : (
          <span className={Number.isFinite(maxA) ? '' : 'lvl-hazard'}>{what}</span>
        )}
      </dd>
    );
  };
  return (
    <>
      <dt>
        <Term word="protected">Protected</Term>
      </dt>
      {end('from')}
      {end('to')}
      {report.unfused ? (
        <>
          <dt>
            <Term word="unprotected length">Unprotected</Term>
          </dt>
          <dd className="lvl-hazard">{length(report.lengthM, units)} before the first fuse</dd>
        </>
      ) : null}
    </>
  );
}
