import { useEffect, useRef, useState } from 'react';
import type { Card } from '../advise/types.ts';
import { LEVEL_WORD } from '../faces/LevelMark.tsx';
import { useLasting } from '../faces/useLasting.ts';
import { useReport } from '../ledger/useReport.ts';
import { useApp } from '../state/store.ts';

/** Findings that come and go within this time are said together, ms. */
const QUIET_MS = 600;

/**
 * Says new and gone findings to a screen reader, politely, only after the first results of a plan, and not while something is
 * dragged or the second look is still to come; where that took long enough to be shown, also that it is over.
 */
export function Announcer() {
  const cards = useReport()?.cards ?? null;
  const planId = useApp((s) => s.plan?.id);
  const before = useRef<{ readonly plan: string | undefined; readonly cards: readonly Card[] } | null>(null);
  const looking = useApp((s) => s.looking);
  const isLate = useLasting(looking);
  const wasLate = useRef(false);
  if (isLate) wasLate.current = true;
  const [said, setSaid] = useState('');

  useEffect(() => {
    if (looking) return;
    const known = before.current;
    const over = wasLate.current ? 'All looked at.' : '';
    if (!cards || !known || known.plan !== planId) {
      before.current = cards ? { plan: planId, cards } : null;
      wasLate.current = false;
      setSaid(cards ? over : '');
      return;
    }
    const timer = setTimeout(() => {
      before.current = { plan: planId, cards };
      wasLate.current = false;
      const changes = [changesIn(known.cards, cards), over].filter((t) => t !== '').join(' ');
      // What was said stays until there is something new to say.
      if (changes !== '') setSaid(changes);
    }, QUIET_MS);
    return () => clearTimeout(timer);
  }, [cards, planId, looking]);

  return (
    <p className="hidden-text" role="status" aria-live="polite">
      {said}
    </p>
  );
}

/** "New hazard: … Gone: …" in a few words; '' when nothing came or went. */
export function changesIn(before: readonly Card[], after: readonly Card[]): string {
  const had = new Set(before.map((c) => c.key));
  const has = new Set(after.map((c) => c.key));
  const come = after.filter((c) => !had.has(c.key)).map((c) => `New ${LEVEL_WORD[c.level].toLowerCase()}: ${c.title}.`);
  const gone = before.filter((c) => !has.has(c.key)).map((c) => `Gone: ${c.title}.`);
  const all = [...come, ...gone];
  return all.length > 3 ? `${come.length} new findings, ${gone.length} gone.` : all.join(' ');
}
