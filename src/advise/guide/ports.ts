import type { Facts, PartView } from '../../analysis/factsTypes.ts';

/** The first USB port of a computer that nothing is plugged into; null = all are taken. */
export function freePort(facts: Facts, computer: PartView): string | null {
  return computer.terminals.find((t) => t.form === 'usb' && !facts.isWired(`${computer.part.id}.${t.id}`))?.id ?? null;
}
