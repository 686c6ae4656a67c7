import type { ComputerState, StopMargin, Stuck, WorstMargin } from '../../analysis/time/types.ts';
import type { Id } from '../../plan/types.ts';
import { formatAmount } from '../../trade/units.ts';

/** What a computer is doing, in a word. */
export const COMPUTER_WORDS: Readonly<Record<ComputerState, string>> = {
  off: 'off',
  booting: 'boots',
  up: 'up',
  stopping: 'stops',
  halted: 'stopped',
  'browned out': 'browned out',
};

/** What stands at the end of a trace where there is one of its kind. */
export const END_WORDS = { battery: 'battery', input: 'converter', five: '5 V' } as const;

/** A time on the strip: "0.35 s", "63.2 s", "12 min 5 s". */
export function timeText(seconds: number): string {
  if (seconds < 1) return `${Number(seconds.toFixed(2))} s`;
  if (seconds < 600) return `${Number(seconds.toFixed(1))} s`;
  return minutes(Math.round(seconds));
}

/** Seconds in hand, never shown longer than they are (nor a lack shorter): two figures under a minute or two. */
export function spareText(seconds: number): string {
  const size = Math.abs(seconds);
  const round = seconds < 0 ? Math.ceil : Math.floor;
  if (size < 10) return `${round(size * 10) / 10} s`;
  return size < 600 ? `${round(size)} s` : minutes(round(size));
}

function minutes(seconds: number): string {
  const rest = seconds % 60;
  return `${Math.floor(seconds / 60)} min${rest === 0 ? '' : ` ${rest} s`}`;
}

export interface StopAnswer {
  /** `none`: nothing has to stop. `short`: power goes first. `never`: it does not stop. `stays`: powered for good. `ample`: it has stopped before. */
  readonly kind: 'none' | 'short' | 'never' | 'stays' | 'ample';
  readonly text: string;
  /** In which supply and door, and by what the power went; '' when there is nothing to add. */
  readonly detail: string;
  readonly part: Id | null;
}

const BAND = { low: 'low supply', typical: 'typical supply', high: 'high supply' } as const;
const DOOR = { 'at once': 'door opened at once', never: 'door left shut' } as const;

/** Order of bad news: power first, never stops, stays powered, then by seconds in hand. */
function badness(m: StopMargin): number {
  if (m.spareS !== null) return m.spareS < 0 ? m.spareS - 1e9 : m.spareS;
  if (m.stoppedS === null) return -1e8;
  return 1e9;
}

/**
 * The one sentence about stopping: of the computer that has the least in hand.
 * @param margins one for each computer
 * @param nameOf used only where there are several computers
 * @param isPowered has it power with the engine running? A computer without has nothing to stop
 */
export function stopAnswer(margins: readonly WorstMargin[], nameOf: (part: Id) => string, isPowered: (part: Id) => boolean): StopAnswer {
  const none = (text: string): StopAnswer => ({ kind: 'none', text, detail: '', part: null });
  if (margins.length === 0) return none('no computer on the plan: nothing has to stop');
  const worst = margins.filter((m) => isPowered(m.part)).sort((a, b) => badness(a) - badness(b))[0];
  if (!worst) return none(margins.length > 1 ? 'no computer has power: nothing stops' : 'the computer has no power: nothing stops');
  const who = margins.length > 1 ? `${nameOf(worst.part)}: ` : '';
  const detail = [BAND[worst.band], DOOR[worst.door], worst.openedBy === null ? '' : `power cut by ${worst.openedBy}`].filter((t) => t !== '').join(', ');
  const answer = (kind: StopAnswer['kind'], text: string): StopAnswer => ({ kind, text: `${who}${text}`, detail, part: worst.part });
  const { spareS, stoppedS, powerFellS } = worst;
  if (spareS !== null) {
    return spareS < 0
      ? answer('short', `power falls ${spareText(spareS)} before it has stopped, at worst`)
      : answer('ample', `stopped ${spareText(spareS)} before power falls, at worst`);
  }
  if (stoppedS === null)
    return answer('never', powerFellS === null ? 'never stops after key-off, and its power stays on' : 'power falls while it runs: it is never told to stop');
  return answer('stays', 'stops, but its power stays on after key-off');
}

export interface CrankAnswer {
  readonly kind: 'off' | 'browns out' | 'keeps';
  readonly text: string;
}

/** What cranking does to the computer of a margin: its least 5 V, and whether it is thrown out. */
export function crankAnswer(margins: readonly StopMargin[]): CrankAnswer | null {
  if (margins.length === 0) return null;
  const out = margins.reduce((sum, m) => sum + m.brownOuts.length, 0);
  const least = Math.min(...margins.map((m) => m.leastCrankV ?? Number.POSITIVE_INFINITY));
  const volts = Number.isFinite(least) ? (least < 0.005 ? '0 V' : `${least.toFixed(2)} V`) : null;
  if (out > 0) {
    const first = Math.min(...margins.flatMap((m) => m.brownOuts));
    return {
      kind: 'browns out',
      text: `browns out at ${timeText(first)}${out > 1 ? ` and ${out - 1} more` : ''}${volts ? `; least ${volts} in cranking` : ''}`,
    };
  }
  return volts === null ? { kind: 'off', text: 'not powered in cranking' } : { kind: 'keeps', text: `keeps ${volts} in cranking` };
}

/** Why a calculation in time ends before its end, and what mends it; null where it came to its end. */
export function stuckText({ outcome, stuck }: { readonly outcome: string; readonly stuck: Stuck | null }): string | null {
  if (outcome !== 'stuck') return null;
  const where = stuck && stuck.where !== '' ? ` at ${stuck.where}` : '';
  const when = stuck ? ` at ${stuck.tS < 0.1 ? formatAmount(stuck.tS, 's', 2) : timeText(stuck.tS)}` : '';
  return stuck?.why === 'restless'
    ? `The calculation got stuck${when}: the volts${where} swing to and fro and never come to rest. A choke or a long thin wire ahead of a converter does that: a large capacitor beside the converter calms it. What comes after is missing.`
    : `The calculation got stuck${when}: no state fits the parts${where}. Most often something there wants more power than its wires can bring, or two parts switch each other to and fro. What comes after is missing.`;
}
