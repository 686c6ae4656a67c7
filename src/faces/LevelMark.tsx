export type MarkLevel = 'hazard' | 'fault' | 'advice';

export const LEVEL_WORD: Readonly<Record<MarkLevel, string>> = { hazard: 'Hazard', fault: 'Fault', advice: 'Advice' };

/** The three shapes of our own: octagon hazard, triangle fault, disc advice; the sign inside differs as well. The word stands beside it. */
export function LevelMark({ level, size = 18 }: { readonly level: MarkLevel; readonly size?: number }) {
  return (
    <svg className={`mark lvl-${level}`} width={size} height={size} viewBox="0 0 20 20" aria-hidden="true">
      {level === 'hazard' ? (
        <>
          <path d="M6.3 1h7.4L19 6.3v7.4L13.7 19H6.3L1 13.7V6.3z" fill="currentColor" />
          <path d="M6 10h8" stroke="var(--paper)" strokeWidth="2.6" />
        </>
      ) : null}
      {level === 'fault' ? (
        <>
          <path d="M10 1.6 19.4 18H.6z" fill="currentColor" strokeLinejoin="round" />
          <path d="M10 7v5.2M10 13.8v2.2" stroke="var(--paper)" strokeWidth="2.2" />
        </>
      ) : null}
      {level === 'advice' ? (
        <>
          <circle cx="10" cy="10" r="9" fill="currentColor" />
          <circle cx="10" cy="10" r="3.2" fill="var(--paper)" />
        </>
      ) : null}
    </svg>
  );
}
