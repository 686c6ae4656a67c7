import { useState } from 'react';
import { length } from '../faces/format.ts';
import { Icon } from '../faces/Icon.tsx';
import { Section } from '../faces/Section.tsx';
import { TypedField } from '../faces/TypedField.tsx';
import { removeRun, setMoving, setRun, zoneOrder } from '../plan/edits.ts';
import type { Moving, Run } from '../plan/types.ts';
import { useApp } from '../state/store.ts';
import { change } from './actions.ts';
import { PickField } from './PickField.tsx';
import { parseLength } from './parse.ts';
import { pairsOf } from './runPairs.ts';

const MOVING: readonly { readonly value: Moving; readonly label: string }[] = [
  { value: 'hinge', label: 'a hinge' },
  { value: 'tilt', label: 'a tilting cab, column' },
];

/** How far a cable runs between two zones: neighbours always have a row, any other two when they are asked for. */
export function Runs() {
  const plan = useApp((s) => s.plan);
  const units = useApp((s) => s.units);
  const [asked, setAsked] = useState<readonly string[]>([]);
  if (!plan) return null;
  const { rows, more } = pairsOf(zoneOrder(plan), Object.values(plan.runs), asked);
  const name = (id: string) => plan.zones[id]?.name ?? id;
  const moves = (run: Run) => (
    <PickField
      label={`Moves: ${name(run.a)} – ${name(run.b)}`}
      value={run.moving ?? ''}
      options={MOVING}
      automatic="nothing"
      reason="Where a door, a lid or a cab bends the wires each time, they want fine strands and a loop to spare."
      quiet
      onPick={(v) => change(setMoving(plan, run.id, v === '' ? null : (v as Moving)))}
    />
  );
  return (
    <Section title="Runs between zones" folded>
      <p className="note">Lay a string where the cable will lie and measure that: every wire takes its length from here.</p>
      <table className="runs">
        <thead>
          <tr>
            <th scope="col">Between</th>
            <th scope="col">Length</th>
            <th scope="col">What moves there</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, a, b, run }) => (
            <tr key={key}>
              <th scope="row">
                {name(a)} – {name(b)}
              </th>
              <td>
                <TypedField
                  label={`Run ${name(a)} to ${name(b)}`}
                  shown={run ? length(run.lengthM, units) : ''}
                  automatic={false}
                  reason={run ? undefined : 'Not measured.'}
                  commit={(text) => {
                    const parsed = parseLength(text, units.length);
                    return parsed.ok ? change(setRun(plan, a, b, parsed.value).edit) : parsed.reason;
                  }}
                />
              </td>
              <td>{run ? moves(run) : null}</td>
              <td>
                {run ? (
                  <button
                    type="button"
                    className="btn quiet icon"
                    title="Remove this run"
                    aria-label={`Remove the run ${name(a)} to ${name(b)}`}
                    onClick={() => change(removeRun(plan, run.id))}
                  >
                    <Icon name="trash" size={18} />
                  </button>
                ) : null}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {more.length > 0 ? (
        <PickField
          label="A run of its own"
          value=""
          automatic="Choose two zones …"
          options={more.map(({ key, a, b }) => ({ value: key, label: `${name(a)} – ${name(b)}` }))}
          reason="Where a cable goes straight from one zone to another past those between. Wires take the shortest way."
          onPick={(key) => setAsked([...asked, key])}
        />
      ) : null}
    </Section>
  );
}
