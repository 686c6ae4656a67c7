import { headline } from '../advise/headline.ts';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { amps, count } from '../faces/format.ts';
import { Icon } from '../faces/Icon.tsx';
import { LevelMark } from '../faces/LevelMark.tsx';
import { partName, readingOf, wireA, wireName } from '../ledger/lookup.ts';
import { useReport } from '../ledger/useReport.ts';
import { shownAnalysis } from '../state/shown.ts';
import { useApp } from '../state/store.ts';

/** Opens the answers on a small screen, and itself gives the shortest one: the selected wire's load, else the headline. */
export function AnswersButton({ open, onToggle }: { readonly open: boolean; onToggle(): void }) {
  const report = useReport();
  const levels = report?.cards.map((c) => c.level);
  const selected = useSelected();
  const worst = levels?.includes('hazard') ? 'hazard' : levels?.includes('fault') ? 'fault' : null;
  return (
    <button type="button" className={open ? 'btn grow on' : 'btn grow'} aria-expanded={open} onClick={onToggle}>
      {worst ? <LevelMark level={worst} size={18} /> : <Icon name="answers" />}
      <span>
        {selected ?? (report ? headline(report) : 'Answers')}
        {/* The mark beside it is the plan's, not that of what is selected. */}
        {selected !== null && worst ? <span className="answers-also">{count(levels?.filter((l) => l === worst).length ?? 0, worst)}</span> : null}
      </span>
    </button>
  );
}

function useSelected(): string | null {
  const plan = useApp((s) => s.plan);
  const results = useApp((s) => s.results);
  const analysis = useApp(shownAnalysis);
  const { parts, wires } = useApp((s) => s.selection);
  const key = useApp((s) => s.keyPosition);
  const band = useApp((s) => s.band);
  const part = parts[0];
  const wire = wires[0];
  if (!plan || parts.length + wires.length !== 1) return null;
  if (part !== undefined) return partName(plan, part);
  if (wire === undefined || !results || !analysis) return null;
  const state = KEY_POSITIONS.find((k) => k.key === key)?.state ?? 'RUN_CHARGING';
  const ampsA = Math.abs(wireA(analysis, readingOf(analysis, state, band), wire));
  const name = plan.wires[wire]?.owner === 'vehicle' ? 'Vehicle’s wire' : wireName(results.filled, wire);
  return `${name}: ${Number.isNaN(ampsA) ? 'not computed' : amps(ampsA)}`;
}
