import type { KeyCycle } from '../analysis/time/types.ts';
import { volts } from '../faces/format.ts';
import { STATE_WORDS } from '../faces/words.ts';
import type { Id } from '../plan/types.ts';
import { computersOf, keyAt, rowAt } from '../sheet/timing/moments.ts';
import { COMPUTER_WORDS, END_WORDS, timeText } from '../sheet/timing/words.ts';

/** The figures at one moment, each with what it is of; a computer's volts stand with what it is doing. */
export function figuresAt(cycle: KeyCycle, tS: number, nameOf: (part: Id) => string): readonly { readonly of: string; readonly is: string }[] {
  const row = rowAt(cycle, tS, '');
  const computers = computersOf(cycle);
  const inputs = cycle.traces.filter((t) => t.id === 'input').length;
  return [
    ...cycle.traces.flatMap((trace, i) => {
      if (trace.id === 'five') return [];
      return [{ of: trace.part !== null && inputs > 1 ? nameOf(trace.part) : END_WORDS[trace.id], is: volts(row.volts[i] ?? Number.NaN) }];
    }),
    ...computers.map((part, i) => {
      const five = cycle.traces.findIndex((t) => t.id === 'five' && t.part === part);
      const word = COMPUTER_WORDS[row.computers[i] ?? 'off'];
      return { of: computers.length > 1 ? nameOf(part) : 'computer', is: five < 0 ? word : `${volts(row.volts[five] ?? Number.NaN)}, ${word}` };
    }),
  ];
}

/** One moment in one line: "63.2 s, Held, battery 12.4 V, converter 12.2 V, computer 5.09 V, stops". */
export function said(cycle: KeyCycle, tS: number, nameOf: (part: Id) => string): string {
  const figures = figuresAt(cycle, tS, nameOf).map((f) => `${f.of} ${f.is}`);
  return [timeText(tS), STATE_WORDS[keyAt(cycle, tS)], ...figures].join(', ');
}
