/** Cavities of the power half of the radio plug of ISO 10487, with what usually sits there (the standard does not fix it; from memory). */
const CAVITIES: readonly { readonly n: number; readonly short: string; readonly usual: string }[] = [
  { n: 1, short: 'free', usual: 'free, or speed signal' },
  { n: 2, short: 'free', usual: 'free, or telephone mute' },
  { n: 3, short: 'free', usual: 'free, or reverse' },
  { n: 4, short: '30', usual: 'permanent 30 – or accessory' },
  { n: 5, short: 'aerial', usual: 'aerial or amplifier switch-on' },
  { n: 6, short: '58', usual: 'instrument lamps 58' },
  { n: 7, short: '75', usual: 'accessory 75 – or permanent' },
  { n: 8, short: '31', usual: 'ground 31' },
];
const CELL = { w: 62, h: 44, gap: 8, x: 14, y: 14 } as const;

/** The power plug of a radio as it is seen from the wires, and a list of what usually sits where. */
export function RadioPlug() {
  const width = 2 * CELL.x + 4 * CELL.w + 3 * CELL.gap;
  const height = 2 * CELL.y + 2 * CELL.h + CELL.gap;
  return (
    <section aria-labelledby="guide-plug">
      <h2 id="guide-plug">The radio’s power plug, seen from the wires</h2>
      <p>
        Positions of the common plug (ISO 10487). Makers differ, and 4 and 7 are swapped in many vehicles: it tells where to look first, never what a lead is.
      </p>
      <div className="guide-plug">
        <svg viewBox={`0 0 ${width} ${height}`} width={width} aria-hidden="true">
          <rect x="1" y="1" width={width - 2} height={height - 2} rx="6" fill="var(--paper)" stroke="var(--ink)" strokeWidth="1.5" />
          {CAVITIES.map(({ n, short }) => {
            const x = CELL.x + Math.floor((n - 1) / 2) * (CELL.w + CELL.gap);
            const y = CELL.y + ((n - 1) % 2) * (CELL.h + CELL.gap);
            return (
              <g key={n}>
                <rect x={x} y={y} width={CELL.w} height={CELL.h} rx="2" fill="var(--ground)" stroke="var(--edge)" />
                <text x={x + 6} y={y + 16} fontSize="12" fontWeight="700" fill="var(--ink)">
                  {n}
                </text>
                <text x={x + CELL.w / 2} y={y + 34} fontSize="12" textAnchor="middle" fill="var(--soft)">
                  {short}
                </text>
              </g>
            );
          })}
        </svg>
        <dl>
          {CAVITIES.map(({ n, usual }) => (
            <div key={n}>
              <dt>{n}</dt>
              <dd>{usual}</dd>
            </div>
          ))}
        </dl>
      </div>
    </section>
  );
}
