import type { Effect } from '../advise/index.ts';

/** Things of a shopping list that are shown without being asked for. */
const FEW = 3;

/** What a repair does: figures before and after, what it adds to buy and what it spares. */
export function EffectLines({ effect }: { readonly effect: Effect }) {
  const { figures, buys, spares } = effect;
  if (figures.length + buys.length + spares.length === 0) return null;
  return (
    <div className="note effect">
      {figures.length > 0 ? (
        <ul>
          {figures.map(({ label, before, after }) => (
            <li key={label}>
              {label}: {before} → {after}
            </li>
          ))}
        </ul>
      ) : null}
      <Things title="To buy" things={buys} />
      <Things title="No longer needed" things={spares} />
    </div>
  );
}

function Things({ title, things }: { readonly title: string; readonly things: readonly string[] }) {
  if (things.length === 0) return null;
  const list = (
    <ul className="bullets">
      {things.map((thing) => (
        <li key={thing}>{thing}</li>
      ))}
    </ul>
  );
  if (things.length <= FEW)
    return (
      <>
        <span>{title}:</span>
        {list}
      </>
    );
  return (
    <details className="preview">
      <summary>
        {title}: {things.length} things
      </summary>
      {list}
    </details>
  );
}
