import { useEffect, useId, useMemo, useRef, useState } from 'react';
import { Icon } from '../faces/Icon.tsx';
import { today } from '../faces/today.ts';
import { partsListCsv, type SheetOptions, sheetHtml, wireListCsv } from '../sheet/index.ts';
import { useSince } from '../state/since.ts';
import { app, useApp } from '../state/store.ts';
import { download, slug } from './download.ts';

/** The wiring sheet as it will print, with the lists as files. */
export default function SheetView({ onClose }: { onClose(): void }) {
  // Paper waits for the second look: what it leaves out, nobody would miss.
  const results = useApp((s) => (s.looking ? null : s.results));
  const title = useApp((s) => s.plan?.title ?? '');
  const lengths = useApp((s) => s.units.length);
  const current = useApp((s) => s.resultsFor === s.plan);
  const cycle = useApp((s) => (s.cycle.resultFor === s.plan ? s.cycle.result : null));
  const margins = useApp((s) => (s.margins.resultFor === s.plan ? s.margins.result : null));
  const events = useApp((s) => (s.events.resultFor === s.plan ? s.events.result : null));
  const [paper, setPaper] = useState<SheetOptions['paper']>('A4');
  const [who, setWho] = useState('');
  // What the drawing shows, the sheet shows first.
  const [since, setSince] = useState(useSince((s) => s.number));
  const revisions = useApp((s) => s.plan?.revisions);
  const kept = Object.values(revisions ?? {})
    .filter((r) => r.was)
    .sort((a, b) => b.number - a.number);
  const frame = useRef<HTMLIFrameElement>(null);
  const back = useRef<HTMLButtonElement>(null);
  const name = useId();

  useEffect(() => back.current?.focus(), []);
  useEffect(() => app.getState().watch('cycle'), []);
  useEffect(() => app.getState().watch('margins'), []);
  useEffect(() => app.getState().watch('events'), []);

  const html = useMemo(
    () =>
      results
        ? sheetHtml(results, {
            paper,
            date: today(),
            lengths,
            ...(since === null ? {} : { since }),
            ...(who.trim() === '' ? {} : { who: who.trim() }),
            ...(cycle ? { time: { cycle, margins, events } } : {}),
          })
        : null,
    [results, paper, lengths, since, who, cycle, margins, events],
  );

  return (
    <main
      className="sheet"
      aria-label="Wiring sheet"
      onKeyDown={(e) => {
        if (e.key === 'Escape') onClose();
      }}
    >
      <header className="sheet-bar">
        <button ref={back} type="button" className="btn" onClick={onClose}>
          ‹ Back to the plan
        </button>
        <h1>Wiring sheet</h1>
        <fieldset className="choice">
          <legend className="hidden-text">Paper</legend>
          {(['A4', 'Letter'] as const).map((p) => (
            <label key={p}>
              <input type="radio" name={name} checked={paper === p} onChange={() => setPaper(p)} />
              {p}
            </label>
          ))}
        </fieldset>
        {kept.length === 0 ? null : (
          <label className="inline">
            Shows
            <select className="input" value={since ?? ''} onChange={(e) => setSince(e.currentTarget.value === '' ? null : Number(e.currentTarget.value))}>
              <option value="">the whole build</option>
              {kept.map((r) => (
                <option key={r.id} value={r.number}>
                  changes since revision {r.number}, {r.date}
                </option>
              ))}
            </select>
          </label>
        )}
        <label className="inline">
          Planned by
          <input className="input" maxLength={60} value={who} onChange={(e) => setWho(e.currentTarget.value)} />
        </label>
        <span className="sheet-actions">
          <button
            type="button"
            className="btn"
            disabled={!results}
            onClick={() => results && download(`${slug(title)}-wires.csv`, wireListCsv(results), 'text/csv')}
          >
            Wire list, CSV
          </button>
          <button
            type="button"
            className="btn"
            disabled={!results}
            onClick={() => results && download(`${slug(title)}-parts.csv`, partsListCsv(results), 'text/csv')}
          >
            Parts list, CSV
          </button>
          <button type="button" className="btn" disabled={!html} onClick={() => html && download(`${slug(title)}-sheet.html`, html, 'text/html')}>
            <Icon name="file" size={16} /> HTML
          </button>
          <button type="button" className="btn main" disabled={!html} onClick={() => frame.current?.contentWindow?.print()}>
            Print …
          </button>
        </span>
      </header>
      {current ? null : <p className="sheet-stale note wrong">The plan has changed; the figures are being worked out again.</p>}
      {html ? (
        <iframe ref={frame} className="sheet-frame" title="Wiring sheet as it will print" sandbox="allow-same-origin allow-modals" srcDoc={html} />
      ) : (
        <p className="opening">Being worked out …</p>
      )}
    </main>
  );
}
