import { GROUP_A } from './A.ts';
import { GROUP_B } from './B.ts';
import { GROUP_C } from './C.ts';
import { GROUP_D } from './D.ts';
import { GROUP_E } from './E.ts';
import { GROUP_F } from './F.ts';
import { GROUP_G } from './G.ts';
import { GROUP_H } from './H.ts';
import { GROUP_I } from './I.ts';
import { GROUP_J } from './J.ts';
import { GROUP_K } from './K.ts';
import { GROUP_L } from './L.ts';
import type { Account } from './types.ts';

export type { Account, ChecklistMoment } from './types.ts';

/** Every catalogue entry that is no rule of its own: a checklist line, part of another rule, or left out with a reason. */
export const account: readonly Account[] = [
  ...GROUP_A,
  ...GROUP_B,
  ...GROUP_C,
  ...GROUP_D,
  ...GROUP_E,
  ...GROUP_F,
  ...GROUP_G,
  ...GROUP_H,
  ...GROUP_I,
  ...GROUP_J,
  ...GROUP_K,
  ...GROUP_L,
];
