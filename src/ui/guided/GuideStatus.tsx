import { useEffect, useRef, useState } from 'react';
import type { Guide } from '../../advise/guide/types.ts';
import { GuideWait } from './GuideWait.tsx';
import { useGuide } from './useGuide.ts';
import './guided.css';

/** Says to a screen reader which step was done or has opened again; on a small screen it is the way to the guide, too. */
export default function GuideStatus({ onOpen, open }: { /** Shows a bar that opens the guide. */ onOpen?(): void; readonly open: boolean }) {
  const now = useGuide(null);
  const guide = now?.guide ?? null;
  const planId = now?.plan.id;
  const before = useRef<{ readonly plan: string | undefined; readonly guide: Guide } | null>(null);
  const [said, setSaid] = useState('');
  useEffect(() => {
    if (!guide) return;
    const known = before.current;
    before.current = { plan: planId, guide };
    const changed = known && known.plan === planId ? stepsSaid(known.guide, guide) : '';
    if (changed !== '') setSaid(changed);
  }, [guide, planId]);
  return (
    <>
      <p className="hidden-text" role="status" aria-live="polite">
        {said}
      </p>
      {onOpen && guide ? (
        <button type="button" className="btn guided-bar" aria-expanded={open} onClick={onOpen}>
          <span className="note">
            Guide {guide.done} of {guide.total}
          </span>
          <span className="guided-next">{guide.current?.step.title ?? 'Every step is done'}</span>
        </button>
      ) : onOpen ? (
        <GuideWait />
      ) : null}
    </>
  );
}

/** "Step done: … Next: …"; '' when no step came or went. */
export function stepsSaid(before: Guide, after: Guide): string {
  const was = new Map(before.steps.map((s) => [s.step.id, s.done]));
  const of = (done: boolean): string[] => after.steps.filter((s) => s.done === done && was.get(s.step.id) === !done).map((s) => s.step.title);
  const [done, open] = [of(true), of(false)];
  if (done.length + open.length === 0) return '';
  const sentences = [
    ...(done.length > 0 ? [`Step done: ${done.join('; ')}.`] : []),
    ...(open.length > 0 ? [`Open again: ${open.join('; ')}.`] : []),
    `${after.done} of ${after.total}.`,
    after.current ? `Next: ${after.current.step.title}.` : 'Every step is done.',
  ];
  return sentences.join(' ');
}
