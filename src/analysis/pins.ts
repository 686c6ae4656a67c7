import { atTerminal } from '../parts/index.ts';
import type { Id } from '../plan/types.ts';
import { BOARDS } from '../trade/boards.ts';
import { HEADER, headerPin } from '../trade/header.ts';
import { LOGIC } from '../trade/logic.ts';
import type { PartView } from './factsTypes.ts';
import { type Graph, other } from './graph.ts';
import { splitKey } from './roles.ts';
import { KEY_POSITIONS, type PinRow, type Reading } from './types.ts';

/** Every wired header cell of every computer, with its level in words in each key position (typical band). */
export function pinRows(graph: Graph, typicalAt: readonly Reading[], terminalAt: ReadonlyMap<string, number>): PinRow[] {
  const rows: PinRow[] = [];
  for (const view of graph.views.values()) {
    if (view.kind.kind !== 'computer') continue;
    const board = BOARDS[view.s.str('board') as keyof typeof BOARDS];
    const logic = LOGIC[board?.logic ?? 'unknown'];
    for (const cell of HEADER) {
      const key = `${view.part.id}.${cell.pin}`;
      const node = graph.indexOf.get(key);
      const wire = node === undefined ? null : (graph.at[node]!.map((e) => graph.edges[e]!).find((e) => e.wire !== null) ?? null);
      if (node === undefined || !wire) continue;
      const ground = terminalAt.get(`${view.part.id}.6`);
      const volts = KEY_POSITIONS.map((_, k) => {
        const r = typicalAt[k]!;
        return r.terminalV[terminalAt.get(key)!]! - (ground === undefined ? 0 : zeroIfFloating(r.terminalV[ground]!));
      });
      const joined = joinedTo(graph, view, node, cell.rail !== null);
      rows.push({
        part: view.part.id,
        pin: cell.pin,
        gpio: cell.gpio,
        label: joined.label,
        joined: joined.part,
        wire: wire.wire?.id ?? null,
        volts,
        level: volts.map((v) => {
          if (cell.rail) return 'rail';
          if (Number.isNaN(v)) return 'floating';
          return v <= logic.vIlMaxV ? 'low' : v >= logic.vIhMinV ? 'high' : 'between';
        }),
        pull: cell.gpio === null ? '' : pullWords(view, cell.gpio),
      });
    }
  }
  return rows;
}

function zeroIfFloating(v: number): number {
  return Number.isNaN(v) ? 0 : v;
}

function pullWords(view: PartView, gpio: number): string {
  const mode = view.s.str(`gpio${gpio}Mode`);
  if (mode === 'in-up') return 'internal pull-up';
  if (mode === 'in-down') return 'internal pull-down';
  if (mode === 'out') return 'output';
  if (mode === 'serial' || mode === 'bus') return mode;
  return 'no internal pull';
}

/** What a pin is joined to: the nearest part that is not a joint, a resistor or a capacitor, and the plan's own name for it. */
function joinedTo(graph: Graph, view: PartView, node: number, rail: boolean): { readonly label: string; readonly part: Id | null } {
  const seen = new Set<string>([view.part.id]);
  const queue = [node];
  const dull = new Set(rail ? ['splice', 'terminal-strip', 'connector'] : ['splice', 'terminal-strip', 'connector', 'resistor', 'capacitor', 'diode']);
  let fallback: { readonly label: string; readonly part: Id } | null = null;
  const visited = new Set<number>(queue);
  for (let q = 0; q < queue.length && q < 200; q++) {
    for (const e of graph.at[queue[q]!]!) {
      const edge = graph.edges[e]!;
      const next = other(edge, queue[q]!);
      if (visited.has(next)) continue;
      const [part, terminal] = splitKey(graph.nodes[next]!);
      const there = graph.views.get(part);
      if (!edge.wire && !(there && dull.has(there.kind.kind))) continue;
      visited.add(next);
      if (there && !seen.has(part) && !dull.has(there.kind.kind))
        return { label: there.terminals.length > 2 ? atTerminal(there.name, there.terminals, terminal) : there.name, part };
      if (there && !fallback && part !== view.part.id) fallback = { label: there.name, part };
      queue.push(next);
    }
  }
  return fallback ?? { label: headerPin(Number(splitKey(graph.nodes[node]!)[1]))?.rail ?? 'joined', part: null };
}
