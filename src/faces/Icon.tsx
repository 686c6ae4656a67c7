const PATHS = {
  undo: 'M4 8h8a4 4 0 0 1 0 8H8M4 8l4-4M4 8l4 4',
  redo: 'M16 8H8a4 4 0 0 0 0 8h4M16 8l-4-4M16 8l-4 4',
  close: 'M5 5l10 10M15 5 5 15',
  turn: 'M15 10a5 5 0 1 1-2-4l2 2M15 4v4h-4',
  trash: 'M4 6h12M8 6V4h4v2M6 6l1 10h6l1-10',
  more: 'M5 10h.01M10 10h.01M15 10h.01',
  down: 'M5 8l5 5 5-5',
  shelf: 'M3 5h14M3 10h14M3 15h14M6 5v5M12 10v5',
  answers: 'M4 16V9M8 16V5M12 16v-5M16 16V7',
  plus: 'M10 4v12M4 10h12',
  file: 'M5 3h7l3 3v11H5zM12 3v3h3',
  look: 'M3 10s3-5 7-5 7 5 7 5-3 5-7 5-7-5-7-5M10 8v4M8 10h4',
  sheet: 'M5 3h10v14H5zM8 7h4M8 10h4M8 13h2',
  job: 'M4 4h4v4H4zM4 12h4v4H4zM11 6h5M11 14h5',
  cycle: 'M3 14h3V6h6v4h5M10 17v-3M15 17v-3',
  play: 'M7 4.5v11l8.5-5.5z',
  pause: 'M7 5v10M13 5v10',
  stepBack: 'M12 5l-5 5 5 5',
  stepOn: 'M8 5l5 5-5 5',
  up: 'M5 12l5-5 5 5',
  free: 'M4 10a6 6 0 0 1 10.5-4M16 10a6 6 0 0 1-10.5 4M14.5 2.5V6H11M5.5 17.5V14H9',
} as const;

export type IconName = keyof typeof PATHS;

/** A plain line sign; always beside a word or inside a button that has a name. */
export function Icon({ name, size = 20 }: { readonly name: IconName; readonly size?: number }) {
  return (
    <svg
      // In the page's text size: large text has large signs beside it.
      width={`${size / 16}rem`}
      height={`${size / 16}rem`}
      viewBox="0 0 20 20"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.6"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      <path d={PATHS[name]} {...(name === 'more' ? { strokeWidth: 2.6 } : {})} />
    </svg>
  );
}
