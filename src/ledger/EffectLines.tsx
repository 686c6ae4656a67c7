import type { Effect } from '../advise/index.ts';

/** What a repair does: figures before and after, what it adds to buy and what it spares. */
export function EffectLines({ effect }: { readonly effect: Effect }) {
  const lines = [
    ...effect.figures.map(({ label, before, after }) => `${label}: ${before} → ${after}`),
    ...(effect.buys.length > 0 ? [`To buy: ${effect.buys.join(', ')}`] : []),
    ...(effect.spares.length > 0 ? [`No longer needed: ${effect.spares.join(', ')}`] : []),
  ];
  if (lines.length === 0) return null;
  return (
    <ul className="note effect">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
