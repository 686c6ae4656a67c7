import { KEY_POSITIONS } from '../analysis/types.ts';
import { volts } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { Term } from '../faces/Term.tsx';
import { isMomentary, shownAnalysis } from '../state/shown.ts';
import { useApp } from '../state/store.ts';
import { headerPin } from '../trade/header.ts';
import { selectPart, selectWire } from './actions.ts';

const LEVEL = { low: 'low', high: 'high', between: 'neither', floating: 'floating', rail: 'supply' } as const;

/** Every header pin in use: what it is joined to, its volts and level at the chosen key position. */
export function Pins() {
  const pins = useApp((s) => shownAnalysis(s)?.pins);
  const held = useApp(isMomentary);
  const key = useApp((s) => s.keyPosition);
  const at = KEY_POSITIONS.findIndex((k) => k.key === key);
  if (!pins) return null;
  if (pins.length === 0) return <p className="note">No header pin is wired yet.</p>;
  return (
    <Section
      title="Header pins in use"
      aside={
        <span className="note">
          {key}, typical{held ? ', button pressed' : ''}
        </span>
      }
    >
      <p className="note">
        Where it says internal <Term word="pull-up">pull-up</Term>, your program has to switch it on.
      </p>
      <div className="scroll-x">
        <table className="plain">
          <thead>
            <tr>
              <th scope="col" className="num">
                Pin
              </th>
              <th scope="col">
                <Term word="gpio">GPIO</Term>
              </th>
              <th scope="col">Joined to</th>
              <th scope="col" className="num">
                Volts
              </th>
              <th scope="col">Level</th>
            </tr>
          </thead>
          <tbody>
            {pins.map((row) => {
              const level = row.level[at];
              const v = row.volts[at] ?? Number.NaN;
              return (
                <tr key={`${row.part}:${row.pin}`}>
                  <td className="num">{row.pin}</td>
                  <td>{row.gpio ?? ''}</td>
                  <th scope="row">
                    <button type="button" className="link" onClick={() => (row.wire ? selectWire(row.wire) : selectPart(row.part))}>
                      {row.label}
                    </button>
                    {row.pull === '' ? null : <p className="note">{row.pull}</p>}
                  </th>
                  <td className="num">{Number.isNaN(v) ? '' : volts(v)}</td>
                  <td className={level === 'between' || level === 'floating' ? 'lvl-fault' : ''}>
                    {headerPin(row.pin).rail === 'GND' ? 'ground' : level ? LEVEL[level] : ''}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </Section>
  );
}
