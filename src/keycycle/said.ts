import type { KeyCycle } from '../analysis/time/types.ts';
import { volts } from '../faces/format.ts';
import { STATE_WORDS } from '../faces/words.ts';
import type { Id } from '../plan/types.ts';
import { computersOf, rowAt } from '../sheet/timing/moments.ts';
import { COMPUTER_WORDS, timeText } from '../sheet/timing/words.ts';

/** The figures at one moment, each with what it is of. */
export function figuresAt(cycle: KeyCycle, tS: number, nameOf: (part: Id) => string): readonly { readonly of: string; readonly is: string }[] {
  const row = rowAt(cycle, tS, '');
  const computers = computersOf(cycle);
  return [
    ...cycle.traces.map((trace, i) => ({ of: trace.label, is: volts(row.volts[i] ?? Number.NaN) })),
    ...computers.map((part, i) => ({ of: computers.length > 1 ? nameOf(part) : 'computer', is: COMPUTER_WORDS[row.computers[i] ?? 'off'] })),
  ];
}

/** One moment in one line: "63.2 s, Held, battery 12.4 V, computer stops". */
export function said(cycle: KeyCycle, tS: number, nameOf: (part: Id) => string): string {
  const figures = figuresAt(cycle, tS, nameOf).map((f) => `${f.of} ${f.is}`);
  return [timeText(tS), STATE_WORDS[rowAt(cycle, tS, '').key], ...figures].join(', ');
}
