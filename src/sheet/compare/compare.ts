import { headline } from '../../advise/headline.ts';
import type { Card, Results } from '../../advise/types.ts';
import type { Level } from '../../rules/types.ts';
import { type Context, contextOf } from '../context.ts';
import { amps, DASH, daysText, type LengthUnit, lengthText, volts } from '../figures.ts';
import { partRows } from '../partRows.ts';
import { wireRows, wireToBuy } from '../wireRows.ts';
import { differencesOf } from './differences.ts';
import type { Comparison, FoundLine, Goods, Pair, Side } from './types.ts';

const LEVELS: readonly Level[] = ['hazard', 'fault', 'advice'];

/**
 * Two wirings of one plan side by side: figures, what is bought, findings, and every part and wire that is not the
 * same. Pure; judges nothing.
 */
export function compareWirings(one: Side, other: Side, unit: LengthUnit = 'm'): Comparison {
  const [a, b] = [contextOf(one.results), contextOf(other.results)];
  return {
    letters: { one: one.letter, other: other.letter },
    figures: figures(one, other, a, b, unit),
    goods: goodsOf(a, b),
    differences: differencesOf(a, b, unit),
    findings: findingsOf(a, b),
  };
}

/** Stands where a figure is not known yet: nothing differs from it. */
const PENDING = 'being worked out';

function figures(one: Side, other: Side, a: Context, b: Context, unit: LengthUnit): Pair[] {
  const rows: Pair[] = [];
  const add = (label: string, x: string, y: string): void => void rows.push({ label, one: x, other: y, differs: x !== y && x !== PENDING && y !== PENDING });
  const both = (label: string, text: (results: Results, context: Context) => string): void => add(label, text(one.results, a), text(other.results, b));
  both('Found', ({ report }) => headline(report));
  both('Parked draw of the build', ({ analysis }) => amps(analysis.parked.buildA));
  both('Parked battery lasts', ({ analysis }) => daysText(analysis.parked.days));
  for (const [label, x, y] of marginRows(one, other, a, b)) add(label, x, y);
  both('5 V at the computer, least', (results) => {
    const v = results.analysis.arrivals.find((r) => results.filled.parts[r.part]?.kind === 'computer')?.worstLow?.v;
    return v === undefined ? DASH : volts(v);
  });
  both('Parts of the build', (_, c) => String(c.ours.length));
  both('Wires of the build', (_, c) => String(wireRows(c).length));
  both('Wire to buy, all sizes', (_, c) => lengthText(wireMetres(c), unit));
  return rows;
}

function wireMetres(context: Context): number {
  return wireToBuy(wireRows(context)).reduce((sum, w) => sum + w.metres, 0);
}

/** One row for each computer that is in either of them. */
function marginRows(one: Side, other: Side, a: Context, b: Context): [string, string, string][] {
  const computers = [
    ...new Set(
      [one, other].flatMap(({ results }) =>
        Object.values(results.filled.parts)
          .filter((p) => p.kind === 'computer')
          .map((p) => p.id),
      ),
    ),
  ];
  return computers.map((id) => {
    const name = computers.length === 1 ? '' : ` of ${(b.views.get(id) ?? a.views.get(id))?.name ?? id}`;
    return [`Seconds to spare after key-off${name}`, spareText(one, id), spareText(other, id)];
  });
}

function spareText({ margins, results }: Side, computer: string): string {
  if (!results.filled.parts[computer]) return DASH;
  if (margins === null) return PENDING;
  const spareS = margins.find((m) => m.part === computer)?.spareS;
  if (spareS === undefined || spareS === null) return 'none to tell: it never stops, or keeps its power';
  // Never shown better than it is.
  const tenths = ((spareS < 0 ? Math.ceil(-spareS * 10 - 1e-9) : Math.floor(spareS * 10 + 1e-9)) / 10).toFixed(1);
  return spareS < 0 ? `power goes ${tenths}\u00a0s too early` : `${tenths}\u00a0s`;
}

/** Everything on the shopping lists of the two, the same words as there; wire by size. */
function goodsOf(a: Context, b: Context): Goods[] {
  const goods = new Map<string, Goods>();
  const add = (side: 'one' | 'other', unit: Goods['unit'], what: string, n: number): void => {
    const so = goods.get(what) ?? { what, unit, one: 0, other: 0 };
    goods.set(what, { ...so, [side]: so[side] + n });
  };
  for (const [side, context] of [
    ['one', a],
    ['other', b],
  ] as const) {
    for (const row of partRows(context)) add(side, 'pieces', titled(row.title, row.spec), row.ids.length);
    for (const w of wireToBuy(wireRows(context))) add(side, 'metres', `Wire ${w.areaMm2} mm² (${w.awg})`, w.metres);
  }
  return [...goods.values()].map((g) => ({ ...g, one: hundredths(g.one), other: hundredths(g.other) }));
}

/** The spec alone where it begins with the title. */
function titled(title: string, spec: string): string {
  return spec.toLowerCase().startsWith(title.toLowerCase()) ? spec : [title, spec].filter(Boolean).join(', ');
}

function hundredths(x: number): number {
  return Math.round(x * 100) / 100;
}

/**
 * Findings by rule and subject: of a card that speaks of three fuses here and of two there, one line is only here. What
 * was set aside is found all the same.
 */
function findingsOf(a: Context, b: Context): Comparison['findings'] {
  const [left, right] = [subjectsOf(a), subjectsOf(b)];
  const pick = (from: Found, keep: (key: string) => boolean): FoundLine[] =>
    [...from.values()]
      .map((card) => ({ ...card, at: [...card.at].filter(([key]) => keep(key)).map(([, name]) => name) }))
      .filter((line) => line.at.length > 0)
      .sort((x, y) => LEVELS.indexOf(x.level) - LEVELS.indexOf(y.level));
  const keys = (found: Found): Set<string> => new Set([...found.values()].flatMap((card) => [...card.at.keys()]));
  const [inOne, inOther] = [keys(left), keys(right)];
  return {
    one: pick(left, (key) => !inOther.has(key)),
    other: pick(right, (key) => !inOne.has(key)),
    both: pick(right, (key) => inOne.has(key)),
  };
}

type Found = ReadonlyMap<string, { readonly level: Level; readonly title: string; readonly at: ReadonlyMap<string, string> }>;

function subjectsOf(context: Context): Found {
  const { report } = context.results;
  const found = new Map<string, { level: Level; title: string; at: Map<string, string> }>();
  const cards: readonly Card[] = [...report.cards, ...report.waiting, ...report.aside.map((x) => x.card)];
  for (const card of cards) {
    const group = `${card.rule}|${card.level}`;
    const line = found.get(group) ?? { level: card.level, title: card.title, at: new Map<string, string>() };
    for (const { subject } of card.findings) line.at.set(`${group}|${subject.kind}|${subject.id}`, nameOf(subject.kind, subject.id, context));
    found.set(group, line);
  }
  return found;
}

function nameOf(kind: 'part' | 'wire' | 'plan', id: string, context: Context): string {
  if (kind === 'part') return context.label(id);
  const wire = kind === 'wire' ? context.plan.wires[id] : undefined;
  if (wire) return wire.number === undefined ? 'a wire of the vehicle' : `W${wire.number}`;
  return 'the whole plan';
}
