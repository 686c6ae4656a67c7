import type { Id } from '../../plan/types.ts';
import type { Panel } from '../../state/panels.ts';
import type { App } from '../../state/store.ts';
import type { Engine } from '../engine.ts';

/** What a command belongs to: where the menu of a part, of a wire or of empty ground shows it. */
export type Where = 'parts' | 'wires' | 'ground';

export const GROUPS = ['Change', 'Line up', 'Copy', 'Wire', 'Look', 'Go to', 'Undo', 'Remove'] as const;

/** What a command may look at and act on. */
export interface Hand {
  readonly engine: Engine;
  readonly app: App;
  /** Opens find, the list of commands, the choice of another kind ... */
  open(panel: Panel): void;
}

/** One thing the hands can do. Menu, list and keys are all made from these. */
export interface Command {
  readonly id: string;
  /** What a person reads, a verb first. */
  readonly title: string;
  readonly group: (typeof GROUPS)[number];
  /** Other words under which a person may look for it. */
  readonly words?: string;
  /** `R`, `Ctrl+Shift+D`, `Delete`; the first is shown. A bare key works with the focus on the drawing only. */
  readonly keys?: readonly string[];
  /** Others answer these keys (the browser’s copy and paste, the page’s undo): they are shown, and not listened to. */
  readonly keysElsewhere?: true;
  /** Menus that show it; absent = list and keys only. */
  readonly where?: readonly Where[];
  /** Is there anything for it to do? */
  can(hand: Hand): boolean;
  run(hand: Hand): void;
}

export const defineCommand = (command: Command): Command => command;

export const chosenParts = ({ app }: Hand): readonly Id[] => app.getState().selection.parts;
export const anyChosen = ({ app }: Hand): boolean => app.getState().selection.parts.length + app.getState().selection.wires.length > 0;
export const only = (hand: Hand): Id | null => {
  const { parts, wires } = hand.app.getState().selection;
  return parts.length === 1 && wires.length === 0 ? (parts[0] ?? null) : null;
};
