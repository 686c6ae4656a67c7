import { describe, expect, it } from 'vitest';
import { mistakes } from '../../src/advise/mistakes.ts';
import { extentOf } from '../../src/parts/spot.ts';
import { apply } from '../../src/plan/apply.ts';
import type { Plan } from '../../src/plan/types.ts';
import { demoPlan } from '../bench/largePlan.ts';

/** Pairs of parts of one zone whose symbols lie over each other. */
function covered(plan: Plan): string[] {
  const parts = Object.values(plan.parts).map((p) => ({ zone: p.zone, name: p.name ?? p.kind, ...extentOf(p) }));
  return parts.flatMap((a, i) =>
    parts
      .slice(i + 1)
      .filter((b) => a.zone === b.zone && a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h)
      .map((b) => `${a.name} and ${b.name}`),
  );
}

describe('the mistakes of the demo', () => {
  it.each(mistakes.map((m) => [m.title, m] as const))('%s: fits the demo, and no part lies under another', (_title, mistake) => {
    const edit = mistake.edit(demoPlan);
    if (!edit) throw new Error('it does not fit');
    const made = apply(demoPlan, edit);
    expect(made.ok && covered(made.plan)).toEqual([]);
  });
});
