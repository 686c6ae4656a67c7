import { partKind } from '../../parts/index.ts';
import { moduleBox } from '../../parts/symbols.ts';
import type { PartKind, TerminalDef } from '../../parts/types.ts';
import type { Plan } from '../../plan/types.ts';

const COMPUTER = 'computer';
/** Wide enough for "Pin 36, GPIO 16" and a port at the other side, u. */
const WIDTH_U = 160;

/**
 * Where kinds of a small drawing come from. Forty pins would dwarf all else in it: of the computer it shows those that
 * are wired in this plan, each with what it is for.
 */
export function briefKinds(plan: Plan): (kind: string) => PartKind {
  const computers = new Set(Object.values(plan.parts).flatMap((p) => (p.kind === COMPUTER ? [p.id] : [])));
  const used = new Set(Object.values(plan.wires).flatMap((w) => [w.from, w.to].flatMap((end) => (computers.has(end.part) ? [end.terminal] : []))));
  const whole = partKind(COMPUTER);
  const terminals: PartKind['terminals'] = (s) =>
    whole
      .terminals(s)
      .filter((t) => used.has(t.id))
      .map(brief);
  const short: PartKind = {
    ...whole,
    terminals,
    symbol: (_, shown) => moduleBox({ left: idsOf(shown, 'left'), right: idsOf(shown, 'right') }, WIDTH_U),
  };
  return (kind) => (kind === COMPUTER ? short : partKind(kind));
}

/** Supply and pins at the left, plugs at the right. */
function brief(t: TerminalDef): TerminalDef {
  if (t.form === 'header') return { ...t, form: 'lead', side: 'left', label: t.title.replace(/, reserved.*/, '') };
  return { ...t, side: t.form === 'socket' ? 'left' : 'right' };
}

function idsOf(terminals: readonly TerminalDef[], side: 'left' | 'right'): string[] {
  const rank = (t: TerminalDef): number => (t.role === 'rail5' ? 0 : t.role === 'ground' ? 1 : 2);
  return terminals
    .filter((t) => t.side === side)
    .sort((a, b) => rank(a) - rank(b))
    .map((t) => t.id);
}
