import { useEffect, useRef, useState } from 'react';
import type { Card } from '../advise/types.ts';
import { LEVEL_WORD } from '../faces/LevelMark.tsx';
import { useReport } from '../ledger/useReport.ts';
import { useApp } from '../state/store.ts';

/** Findings that come and go within this time are said together, ms. */
const QUIET_MS = 600;

/** Says new and gone findings to a screen reader, politely, only after the first results of a plan, and not while something is dragged. */
export function Announcer() {
  const cards = useReport()?.cards ?? null;
  const planId = useApp((s) => s.plan?.id);
  const before = useRef<{ readonly plan: string | undefined; readonly cards: readonly Card[] } | null>(null);
  const [said, setSaid] = useState('');

  useEffect(() => {
    const known = before.current;
    if (!cards || !known || known.plan !== planId) {
      before.current = cards ? { plan: planId, cards } : null;
      setSaid('');
      return;
    }
    const timer = setTimeout(() => {
      before.current = { plan: planId, cards };
      const changes = changesIn(known.cards, cards);
      // What was said stays until there is something new to say.
      if (changes !== '') setSaid(changes);
    }, QUIET_MS);
    return () => clearTimeout(timer);
  }, [cards, planId]);

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
