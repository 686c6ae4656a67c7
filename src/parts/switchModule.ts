import type { LoadFact, PartFacts, Settings } from './types.ts';

/** Reversed supply that a built-in guard stands, V: 24 V vehicle's over-voltage reversed (ISO 16750-2, from memory). */
export const GUARD_V = 32;

/** What a module between `in` and `gnd` draws for its own electronics. */
export function electronics(s: Settings, amp: number): LoadFact {
  return {
    plus: 'in',
    minus: 'gnd',
    label: 'electronics',
    nominalV: s.num('nominalV'),
    minV: s.num('leastV'),
    maxV: s.num('nominalV') * (4 / 3),
    absMaxV: s.num('absMaxV'),
    peakA: amp * 1.5,
    heatA: amp,
  };
}

/** What a supply the wrong way round between two terminals meets. */
export function guardedAgainst(s: Settings, what: string, plus = 'in', minus = 'gnd'): NonNullable<PartFacts['polar']> {
  return [{ plus, minus, what, reverseV: s.flag('reverseGuard') ? GUARD_V : 0 }];
}
