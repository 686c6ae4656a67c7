import type { Part } from '../plan/types.ts';
import { settingsOf } from './definePart.ts';
import { partKinds } from './registry.ts';
import type { TerminalDef } from './types.ts';

/**
 * A part's name and one of its terminals as the drawing prints it: "Step-down 0 V", "A1 Computer pin 17", "X2 Constant 30" where
 * the name ends with it. What prints nothing says what it is: "Fuse, side towards the load"; a joint is its name alone.
 */
export function atTerminal(name: string, terminals: readonly TerminalDef[], id: string): string {
  const terminal = terminals.find((t) => t.id === id);
  if (!terminal || terminal.form === 'splice') return name;
  if (terminal.label === '') return `${name}, ${terminal.title.charAt(0).toLowerCase()}${terminal.title.slice(1)}`;
  const label = terminal.form === 'header' ? `pin ${terminal.label}` : terminal.label;
  return name.endsWith(` ${label}`) ? name : `${name} ${label}`;
}

/** The same for a part of the plan, called by its own name or its kind's where nothing else is said. */
export function namedEnd(part: Part, id: string, name?: string): string {
  const kind = partKinds.get(part.kind);
  const called = name ?? part.name ?? kind?.title ?? part.kind;
  return kind ? atTerminal(called, kind.terminals(settingsOf(kind, part.settings)), id) : called;
}
