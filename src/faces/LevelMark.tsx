export type MarkLevel = 'hazard' | 'fault' | 'advice';

export const LEVEL_WORD: Readonly<Record<MarkLevel, string>> = { hazard: 'Hazard', fault: 'Fault', advice: 'Advice' };

/** Outlines of the three shapes in a box of 20, each with a hole of its own kind; signs inside would look like signs of others. */
const SHAPE: Readonly<Record<MarkLevel, string>> = {
  hazard: 'M6.3 1h7.4L19 6.3v7.4L13.7 19H6.3L1 13.7V6.3zM8.4 6.1 6.1 8.4v3.2l2.3 2.3h3.2l2.3-2.3V8.4l-2.3-2.3z',
  fault: 'M10 1.2 19.6 18.4H.4zM10 8.6 6.9 14.4h6.2z',
  advice: 'M10 1a9 9 0 1 1 0 18a9 9 0 1 1 0-18M10 6.6a3.4 3.4 0 1 0 0 6.8a3.4 3.4 0 1 0 0-6.8',
};

/** The shape of a level: octagon hazard, triangle fault, disc advice. The word stands beside it. */
export function LevelMark({ level, size = 18 }: { readonly level: MarkLevel; readonly size?: number }) {
  return (
    <svg className={`mark lvl-${level}`} width={size} height={size} viewBox="0 0 20 20" aria-hidden="true">
      <path d={SHAPE[level]} fill="currentColor" fillRule="evenodd" />
    </svg>
  );
}
