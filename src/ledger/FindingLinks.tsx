import { LEVEL_WORD, LevelMark } from '../faces/LevelMark.tsx';
import type { Id } from '../plan/types.ts';
import { useApp } from '../state/store.ts';

/** The findings that touch one part or wire, each a way to its card. */
export function FindingLinks({ id, onShowFinding }: { readonly id: Id; onShowFinding(key: string): void }) {
  const all = useApp((s) => s.results?.report.cards);
  const cards = all?.filter((c) => c.findings.some((f) => f.subject.id === id || f.related.some((r) => r.id === id))) ?? [];
  if (cards.length === 0) return null;
  return (
    <ul className="finding-links">
      {cards.map((c) => (
        <li key={c.key}>
          <LevelMark level={c.level} size={16} />
          <button type="button" className="link" onClick={() => onShowFinding(c.key)}>
            {LEVEL_WORD[c.level]}: {c.title}
          </button>
        </li>
      ))}
    </ul>
  );
}
