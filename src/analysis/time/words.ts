import type { PartView } from '../factsTypes.ts';

/** What switching of a device is called: when it turns on, when it turns off; null = too inward to be told. */
const WORDS: Readonly<Record<string, readonly [on: string | null, off: string | null]>> = {
  coil: ['pulls in', 'lets go'],
  hold: ['sees its trigger', 'has run out of time'],
  run: ['starts', 'stops'],
  latch: ['closes', 'opens'],
  kept: [null, null],
  backstop: ['has run out of time', null],
  warning: ['warns of a low battery', 'takes its warning back'],
  cut: [null, null],
  contact: ['closes', 'opens'],
  powered: ['has power', 'loses its power'],
  booted: ['is up', null],
  stopping: ['begins to stop', null],
  halted: ['has stopped', null],
  melted: ['melts', null],
  channel: [null, null],
  overload: ['is overloaded and pauses', null],
};

/** `K1 Hold relay` */
export function called(view: PartView): string {
  return `${view.item} ${view.name}`;
}

/** One event in words, e.g. `K1 Hold relay lets go`; null for what only follows from another. */
export function eventWords(view: PartView, device: string, on: boolean): string | null {
  if (device === 'melted' && view.facts.tap) return on ? `The vehicle’s own fuse ahead of ${called(view)} melts` : null;
  const [yes, no] = WORDS[device] ?? ['switches on', 'switches off'];
  const word = on ? yes : no;
  return word === null ? null : `${called(view)} ${word}`;
}
