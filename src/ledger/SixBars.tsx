import { KEY_POSITIONS, type KeyPosition } from '../analysis/types.ts';

/** All six key positions side by side: bar and figure; the chosen one in the accent. Bars share one scale. */
export function SixBars({
  values,
  text,
  chosen,
  label,
}: {
  readonly values: readonly number[];
  text(value: number): string;
  readonly chosen: KeyPosition;
  readonly label: string;
}) {
  const top = Math.max(0, ...values.filter(Number.isFinite));
  return (
    <table className="six">
      <caption className="hidden-text">{label} at each key position</caption>
      <tbody>
        {KEY_POSITIONS.map(({ key }, i) => {
          const value = values[i] ?? Number.NaN;
          const part = top > 0 && Number.isFinite(value) ? value / top : 0;
          return (
            <tr key={key} className={key === chosen ? 'on' : ''} {...(key === chosen ? { 'aria-current': true } : {})}>
              <th scope="row">{key}</th>
              <td>
                <span className="six-bar" style={{ inlineSize: `${(part * 100).toFixed(1)}%` }} aria-hidden="true" />
                <span>{Number.isNaN(value) ? 'not computed' : text(value)}</span>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
