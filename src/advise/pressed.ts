import { type PressedMoment, pressedMoment } from '../analysis/pressed.ts';
import type { Id, Plan } from '../plan/types.ts';
import { settlePlan } from './settle.ts';

/** The moment in which buttons of a plan are pressed; the plan as the person left it. Pure. */
export function pressedResults(plan: Plan, pressed: readonly Id[]): PressedMoment {
  const { filled, known } = settlePlan(plan);
  return pressedMoment(filled, new Set(pressed), known);
}
