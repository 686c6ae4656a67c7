import { useState } from 'react';
import type { FindingsReport } from '../advise/types.ts';
import { useApp } from '../state/store.ts';

/** The findings as they stand; while something is dragged, those from before: nothing pops up under a busy hand. */
export function useReport(): FindingsReport | undefined {
  const report = useApp((s) => s.results?.report);
  const dragging = useApp((s) => s.provisional !== null);
  const [calm, setCalm] = useState(report);
  if (!dragging && calm !== report) setCalm(report);
  return dragging ? calm : report;
}
