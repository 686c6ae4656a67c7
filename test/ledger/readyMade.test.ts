import { describe, expect, it } from 'vitest';
import { readyMade, settingsOfReadyMade } from '../../src/ledger/readyMade.ts';
import { partKind, partKinds } from '../../src/parts/index.ts';
import type { Values } from '../../src/plan/types.ts';

const withVariants = [...partKinds.values()].filter((k) => (k.variants ?? []).length > 1);

describe('the ready-made kinds of a part', () => {
  it.each(withVariants.map((k) => [k.kind, k] as const))('%s: each is known again by its settings, also after another was chosen before', (_name, kind) => {
    for (const before of kind.variants ?? [])
      for (const variant of kind.variants ?? []) {
        const patch = { ...before.settings, ...settingsOfReadyMade(kind, variant) };
        const settings = Object.fromEntries(Object.entries(patch).filter(([, value]) => value !== undefined)) as Values;
        expect(readyMade(kind, settings)?.title, `${before.id} to ${variant.id}`).toBe(variant.title);
      }
  });

  it('a word of one’s own makes no other of it, a figure of one’s own does', () => {
    const usb = partKind('usb-device');
    expect(readyMade(usb, { what: 'Card reader' })?.id).toBe('plain');
    expect(readyMade(usb, { typA: 0.123 })).toBeUndefined();
  });
});
