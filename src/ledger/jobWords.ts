import type { Stage } from '../plan/types.ts';

/** Each stage: its name, and what is done in it. */
export const STAGE_WORDS: Readonly<Record<Stage, { readonly name: string; readonly about: string }>> = {
  find: { name: 'Find', about: 'At the vehicle: which lead is which, what feeds it, and what the plan still has to know.' },
  draw: { name: 'Draw', about: 'On the plan: what is loose, has no length or was found to be wrong.' },
  buy: { name: 'Buy', about: 'What to have on the bench before starting. What is ticked and then planned otherwise is open again.' },
  wire: { name: 'Wire', about: 'What is in the vehicle. Once ticked, its size, colour, number and rating stay as they are.' },
  test: { name: 'Test', about: 'In this order, with the meter. Stop where a reading is far off and find out why.' },
  software: { name: 'Software', about: 'What the programs on the computer must do for this wiring to work.' },
  keep: { name: 'Keep', about: 'What stays with the vehicle and its next owner. Print and save again after a change.' },
};
