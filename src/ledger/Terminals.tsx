import { useState } from 'react';
import { type MeterGround, meterVolts } from '../analysis/meterGround.ts';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { volts } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { settingsOf } from '../parts/definePart.ts';
import { partKinds } from '../parts/index.ts';
import { wiresOn } from '../plan/connect.ts';
import type { Part } from '../plan/types.ts';
import { shownAnalysis } from '../state/shown.ts';
import { useApp } from '../state/store.ts';
import { selectWire } from './actions.ts';
import { groundName, readingOf, wireName } from './lookup.ts';

/** A part's terminals with their volts at the chosen key position and the wires on them; of many, the wired ones first. */
export function Terminals({ part }: { readonly part: Part }) {
  const plan = useApp((s) => s.plan);
  const results = useApp((s) => s.results);
  const analysis = useApp(shownAnalysis);
  const key = useApp((s) => s.keyPosition);
  const band = useApp((s) => s.band);
  const [all, setAll] = useState(false);
  const kind = partKinds.get(part.kind);
  if (!plan || !kind) return null;
  const terminals = kind.terminals(settingsOf(kind, results?.filled.parts[part.id]?.settings ?? part.settings));
  const wired = terminals.filter((t) => wiresOn(plan, part.id, t.id).length > 0);
  const many = terminals.length > 8;
  const shown = many && !all ? wired : terminals;
  const state = KEY_POSITIONS.find((k) => k.key === key)?.state ?? 'RUN_CHARGING';
  const reading = analysis ? readingOf(analysis, state, band) : null;
  const measured = (terminal: string) =>
    results && analysis ? meterVolts(results.filled, analysis, reading, `${part.id}.${terminal}`) : { v: Number.NaN, ground: null };
  const grounds = shown
    .filter((t) => wiresOn(plan, part.id, t.id).length > 0)
    .flatMap((t) => {
      const { v, ground } = measured(t.id);
      return Number.isNaN(v) ? [] : [ground];
    });
  return (
    <Section
      title="Terminals"
      folded={false}
      aside={
        <span className="note">
          {key}, {band}
        </span>
      }
    >
      <table className="plain">
        <thead>
          <tr>
            <th scope="col">Terminal</th>
            <th scope="col" className="num">
              Volts
            </th>
            <th scope="col">Wires</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((t) => {
            const wires = wiresOn(plan, part.id, t.id);
            const { v } = measured(t.id);
            return (
              <tr key={t.id}>
                <th scope="row" className="terminal">
                  <b>{t.label}</b> {t.title === t.label ? '' : t.title}
                </th>
                <td className="num">{wires.length === 0 ? '' : Number.isNaN(v) ? (reading?.status === 'solved' ? 'floating' : 'not computed') : volts(v)}</td>
                <td>
                  {wires.length === 0 ? <span className="note">{t.required ? 'needs a wire' : 'free'}</span> : null}
                  {wires.map((w) => (
                    <button key={w.id} type="button" className="link tag" onClick={() => selectWire(w.id)}>
                      {w.owner === 'vehicle' ? 'the vehicle’s' : results ? wireName(results.filled, w.id) : ''}
                    </button>
                  ))}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {grounds.length > 0 ? <p className="note">{againstText(grounds, (g) => groundName(plan, g, part.id))}</p> : null}
      {many ? (
        <button type="button" className="link" onClick={() => setAll(!all)}>
          {all ? 'Show wired terminals only' : `Show all ${terminals.length} terminals`}
        </button>
      ) : null}
    </Section>
  );
}

/** Against what the volts of a table are: one 0 V for all, or which rows have another. */
function againstText(grounds: readonly (MeterGround | null)[], name: (ground: MeterGround | null) => string): string {
  const names = [...new Set(grounds.filter((g) => g !== null).map(name))];
  const battery = grounds.includes(null);
  if (names.length === 0) return `Volts against ${name(null)}.`;
  return `5 V, 3.3 V and signals against ${names.join(' or ')}${battery ? `; supply and ground against ${name(null)}` : ''}.`;
}
