import { type Command, GROUPS, type Hand } from './command.ts';

const modules = import.meta.glob<Record<string, unknown>>('./all/*.ts', { eager: true });

/** Every command, by groups, within them by title. A new file in `all/` is enough to add one. */
export const commands: readonly Command[] = Object.values(modules)
  .flatMap((m) => Object.values(m))
  .filter((v): v is Command => typeof v === 'object' && v !== null && 'run' in v && 'title' in v)
  .sort((a, b) => GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) || a.title.localeCompare(b.title, 'en'));

const byKey = new Map(commands.flatMap((c) => (c.keysElsewhere ? [] : (c.keys ?? []).map((k): [string, Command] => [k.toLowerCase(), c]))));

/** The key of an event as commands write it: `ctrl+shift+d`, `r`, `?`. Shift is named where it makes no other sign. */
export function keyOf(e: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>): string {
  const sign = e.key.length === 1 && e.key.toLowerCase() === e.key.toUpperCase();
  return [e.ctrlKey || e.metaKey ? 'ctrl+' : '', e.altKey ? 'alt+' : '', e.shiftKey && !sign ? 'shift+' : '', e.key.toLowerCase()].join('');
}

/** The command of a key that has something to do now. */
export function commandOfKey(key: string, hand: Hand): Command | null {
  const command = byKey.get(key);
  return command?.can(hand) ? command : null;
}
