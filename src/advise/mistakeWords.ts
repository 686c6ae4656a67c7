/** A mistake to try on the demo, in words: what it is called, what to look at, and what must answer it. */
export interface MistakeWords {
  readonly id: string;
  readonly title: string;
  readonly look: string;
  /** Catalogue code of the finding that must answer it. */
  readonly answers: string;
}

/** The six mistakes of the demo, most common first. Without what they do: whoever presses them in a browser knows no parts. */
export const MISTAKE_WORDS = [
  {
    id: 'fuse-at-the-far-end',
    title: 'Fuse at the far end',
    look: 'Two metres of live wire now lie between the tap and its fuse: a chafed spot there has nothing of ours to stop it.',
    answers: 'A2',
  },
  {
    id: 'fifteen-amp-fuse',
    title: '15 A fuse',
    look: 'The wires behind it carry less than 15 A: now the wire is the fuse.',
    answers: 'A3',
  },
  {
    id: 'thin-feed',
    title: 'Thin feed',
    look: 'Choose the feed: see its drop and how much of its limit it uses, most of all on a tired battery.',
    answers: 'A3',
  },
  {
    id: 'no-hold-relay',
    title: 'No hold relay',
    look: 'The supply now comes from the ignition lead and falls with the key: the computer has no time to stop.',
    answers: 'F1',
  },
  {
    id: 'sense-resistor-too-small',
    title: 'Sense resistor too small',
    look: 'It looks fine on the bench at 12.6 V. Read what it takes at 16 V.',
    answers: 'D1',
  },
  {
    id: 'button-on-a-console-pin',
    title: 'Button on a console pin',
    look: 'GPIO 14 speaks while the computer starts: a button there is read as noise, and pressed it fights the console.',
    answers: 'E1',
  },
] as const satisfies readonly MistakeWords[];
