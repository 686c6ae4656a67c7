import type { Id } from '../../plan/types.ts';
import type { Run } from './run.ts';
import type { ComputerSpan, ComputerState } from './types.ts';

/** A fall of its power from which a computer does not come back is shown as such so long, s. */
const FALL_SHOWN_S = 5;

/** States of one computer's devices after one of their events. */
interface Step {
  readonly tS: number;
  readonly powered: boolean;
  readonly booted: boolean;
  readonly stopping: boolean;
  readonly halted: boolean;
}

function stepsOf(run: Run, part: Id): Step[] {
  const prefix = `${part}:`;
  let now: Step = { tS: 0, powered: false, booted: false, stopping: false, halted: false };
  for (const [id, on] of run.states0) if (id.startsWith(prefix)) now = { ...now, [id.slice(prefix.length)]: on };
  const steps = [now];
  for (const e of run.events) {
    if (!e.device.startsWith(prefix)) continue;
    now = { ...now, tS: e.tS, [e.device.slice(prefix.length)]: e.on };
    steps.push(now);
  }
  return steps;
}

function poweredState(s: Step): ComputerState {
  if (s.halted && !s.stopping) return 'halted';
  if (s.stopping) return 'stopping';
  return s.booted ? 'up' : 'booting';
}

/** What a computer was doing, end to end. A fall of its power before it had stopped is "browned out" until it comes back. */
export function computerSpans(run: Run, part: Id): ComputerSpan[] {
  const steps = stepsOf(run, part);
  const endS = run.tS.at(-1) ?? 0;
  const marks: { readonly tS: number; readonly state: ComputerState }[] = [];
  const mark = (tS: number, state: ComputerState): void => {
    if (marks.at(-1)?.state !== state) marks.push({ tS, state });
  };
  steps.forEach((s, k) => {
    const before = steps[k - 1];
    if (s.powered) mark(s.tS, poweredState(s));
    else if (!before || (before.powered && before.halted)) mark(s.tS, 'off');
    else if (before.powered) {
      mark(s.tS, 'browned out');
      if (!steps.slice(k).some((x) => x.powered)) mark(s.tS + FALL_SHOWN_S, 'off');
    }
  });
  return marks.flatMap(({ tS, state }, k) => {
    const toS = Math.min(marks[k + 1]?.tS ?? endS, endS);
    return toS > tS ? [{ part, state, fromS: tS, toS }] : [];
  });
}
