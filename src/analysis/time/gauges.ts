import type { Profile } from '../../trade/profiles.ts';
import { DIODES, type DiodeType, OPTOS, type OptoType } from '../../trade/semiconductors.ts';
import type { PartView } from '../factsTypes.ts';
import { nodeName } from '../graph.ts';
import type { TimeBase } from './base.ts';
import { fusesOf } from './timedFuses.ts';
import type { StressKind } from './types.ts';

/** An element, or one port of it. */
export interface Leg {
  readonly id: string;
  readonly port?: string;
}

/** One figure of one part that an event may drive beyond what the part stands. */
export interface Gauge {
  readonly part: string;
  readonly kind: StressKind;
  readonly unit: 'V' | 'A' | 'W' | 'J' | '';
  readonly limit: number;
  /** How it comes from what was recorded. */
  readonly from: From;
}

export type From =
  /** Volts between two nodes: their greatest, their least, or the greatest of plus below minus. */
  | { readonly of: 'most' | 'least' | 'reversed'; readonly plus: string; readonly minus: string }
  /** Greatest current, either sign. */
  | { readonly of: 'amps'; readonly leg: Leg }
  /** Greatest product of volts and current, or the most energy within a span. */
  | { readonly of: 'watts'; readonly leg: Leg; readonly plus: string; readonly minus: string }
  | { readonly of: 'joules'; readonly leg: Leg; readonly plus: string; readonly minus: string; readonly withinS: number; readonly perS: boolean }
  /** Greatest share of the way to melting. */
  | { readonly of: 'heat'; readonly fuse: string };

/** What minds polarity without a stated figure stands about a volt the wrong way round (electrolytics and junctions, from memory). */
const UNSTATED_V = 1;
/** A clamp's energy is stated for one load dump, which lasts up to so long, s (ISO 16750-2, read). */
const DUMP_S = 0.4;
/** Heat of a resistor counts as the mean over so long, s: less is a pulse that it stands (makers' pulse curves, from memory). */
const HEAT_S = 1;
/** For a minute or so a resistor stands this many times its rating (common practice, no source). */
const SHORT_S = 61;
const SHORT_TIMES = 2;

/** Everything in a plan that an event of the supply can hurt, with what it stands. */
export function gaugesOf(base: TimeBase, event: Profile): Gauge[] {
  const { graph, solver } = base;
  const { nodeIndex, elementIndex } = solver.network;
  const isThere = (node: string): boolean => node === '0' || nodeIndex.has(node);
  const fuses = fusesOf(graph.views.values(), 'high').map((f): Gauge => {
    const part = f.id.slice(0, f.id.indexOf(':'));
    return { part, kind: 'fuse', unit: '', limit: 1, from: { of: 'heat', fuse: f.id } };
  });
  return [...[...graph.views.values()].flatMap((view) => gaugesOfPart(view, event)), ...fuses].filter(({ from }) => {
    if ('leg' in from && !elementIndex.has(from.leg.id)) return false;
    return !('plus' in from) || (isThere(from.plus) && isThere(from.minus));
  });
}

function gaugesOfPart(view: PartView, event: Profile): Gauge[] {
  const part = view.part.id;
  const { s, facts, kind } = view;
  const node = (terminal: string): string => nodeName(view, terminal);
  const across = (plus: string, minus: string) => ({ plus: node(plus), minus: node(minus) });
  const list: Gauge[] = [];
  const load = facts.loads?.[0];
  if (load && load.absMaxV !== null && kind.kind !== 'computer')
    list.push({ part, kind: 'input', unit: 'V', limit: load.absMaxV, from: { of: 'most', ...across(load.plus, load.minus) } });
  if (load && kind.kind === 'computer') {
    const from = across(load.plus, load.minus);
    if (load.maxV !== null) list.push({ part, kind: 'five', unit: 'V', limit: load.maxV, from: { of: 'most', ...from } });
    if (load.minV !== null && event.id === 'starting') list.push({ part, kind: 'five low', unit: 'V', limit: load.minV, from: { of: 'least', ...from } });
  }
  for (const pair of facts.polar ?? []) {
    // A guard is there to be reversed: what counts is what it holds back.
    if (kind.kind === 'reverse-guard' || pair.plus === 'C') continue;
    // What a built-in guard stands is stated for a reversed battery; of a spike of milliseconds no sheet speaks.
    if (kind.settings.some((x) => x.key === 'reverseGuard') && (pair.reverseV ?? 0) > 0 && event.id !== 'reversed-battery') continue;
    list.push({
      part,
      kind: 'reversed',
      unit: 'V',
      limit: Math.max(UNSTATED_V, pair.reverseV ?? 0),
      from: { of: 'reversed', ...across(pair.plus, pair.minus) },
    });
  }
  switch (kind.kind) {
    case 'capacitor':
      list.push({ part, kind: 'capacitor', unit: 'V', limit: s.num('ratedV'), from: { of: 'most', ...across('+', '-') } });
      break;
    case 'surge-clamp': {
      const from = { leg: { id: `${part}:clamp` }, ...across('K', 'A') };
      list.push(
        { part, kind: 'clamp power', unit: 'W', limit: s.num('pulseW'), from: { of: 'watts', ...from } },
        { part, kind: 'clamp energy', unit: 'J', limit: s.num('energyJ'), from: { of: 'joules', ...from, withinS: DUMP_S, perS: false } },
      );
      break;
    }
    case 'optocoupler':
      list.push({ part, kind: 'led', unit: 'A', limit: OPTOS[s.str('type') as OptoType].maxA, from: { of: 'amps', leg: { id: `${part}:opto`, port: 'led' } } });
      break;
    case 'led':
      list.push({ part, kind: 'led', unit: 'A', limit: s.num('ratedA'), from: { of: 'amps', leg: { id: `${part}:led` } } });
      break;
    case 'reverse-guard':
      list.push({ part, kind: 'blocked', unit: 'V', limit: s.num('reverseV'), from: { of: 'reversed', ...across('in', 'out') } });
      break;
    case 'diode': {
      const facts = DIODES[s.str('type') as DiodeType];
      if (facts) list.push({ part, kind: 'blocked', unit: 'V', limit: facts.reverseV, from: { of: 'reversed', ...across('A', 'K') } });
      break;
    }
    case 'resistor':
      list.push({
        part,
        kind: 'resistor',
        unit: 'W',
        limit: (event.lastsS > SHORT_S ? 1 : SHORT_TIMES) * s.num('ratedW'),
        from: { of: 'joules', leg: { id: `${part}:r` }, ...across('1', '2'), withinS: HEAT_S, perS: true },
      });
  }
  return list;
}
