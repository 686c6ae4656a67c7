import { letterOf } from '../plan/alternatives.ts';
import type { PlanEntry } from '../state/types.ts';

/** A plan in a list: its title, and which wiring where it is not the first. */
export function planName(entry: Pick<PlanEntry, 'title' | 'alternative'>): string {
  return [entry.title || 'Untitled plan', ...(entry.alternative ? [`wiring ${letterOf(entry)}`] : [])].join(', ');
}
