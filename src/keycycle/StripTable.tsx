import type { KeyCycle } from '../analysis/time/types.ts';
import { volts } from '../faces/format.ts';
import { STATE_WORDS } from '../faces/words.ts';
import type { Id } from '../plan/types.ts';
import { computersOf, momentRows } from '../sheet/timing/moments.ts';
import { COMPUTER_WORDS, timeText } from '../sheet/timing/words.ts';

/** The strip as figures: every moment at which something happens. */
export function StripTable({ cycle, nameOf }: { readonly cycle: KeyCycle; nameOf(part: Id): string }) {
  const computers = computersOf(cycle);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls is in reach of the keyboard
    <section className="strip-table" tabIndex={0} aria-label="Key cycle as a table">
      <table className="plain">
        <thead>
          <tr>
            <th scope="col">Moment</th>
            <th scope="col" className="num">
              Time
            </th>
            <th scope="col">Key</th>
            {cycle.traces.map((t) => (
              <th key={`${t.id}:${t.part}`} scope="col" className="num">
                {t.label}
              </th>
            ))}
            {computers.map((part) => (
              <th key={part} scope="col">
                {computers.length > 1 ? nameOf(part) : 'Computer'}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {momentRows(cycle, nameOf).map((row) => (
            <tr key={`${row.tS}:${row.what}`}>
              <th scope="row">{row.what}</th>
              <td className="num">{timeText(row.tS)}</td>
              <td>{STATE_WORDS[row.key]}</td>
              {row.volts.map((v, i) => (
                <td key={`${cycle.traces[i]?.id}:${cycle.traces[i]?.part}`} className="num">
                  {volts(v)}
                </td>
              ))}
              {row.computers.map((state, i) => (
                <td key={computers[i]}>{COMPUTER_WORDS[state]}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
