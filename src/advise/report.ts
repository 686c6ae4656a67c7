import type { Facts } from '../analysis/factsTypes.ts';
import type { FaultPaths } from '../analysis/fuses.ts';
import type { Graph } from '../analysis/graph.ts';
import { FIRST_STAGE, reached } from '../plan/stages.ts';
import type { Id, Stage } from '../plan/types.ts';
import { SWEPT } from '../rules/beyond.ts';
import type { RuleRun } from '../rules/engine.ts';
import { ruleById } from '../rules/index.ts';
import type { Finding, Level, Subject } from '../rules/types.ts';
import type { Card, FindingsReport } from './types.ts';

const RANK: Readonly<Record<Level, number>> = { hazard: 0, fault: 1, advice: 2 };

/**
 * Findings without noise: what is unfinished waits, one cause is one card, the same rule on n subjects is one card, hazards
 * come first and then what lies nearest to the battery; what matters only later in the job waits for its stage.
 */
export function findingsReport(run: RuleRun, facts: Facts, graph: Graph, paths: FaultPaths): FindingsReport {
  const loose = looseTerminals(facts);
  const ready = run.findings.filter((f) => speaks(f, loose, facts));
  const near = nearness(graph, paths);
  const ordered = [...ready].sort(
    (a, b) => RANK[a.level] - RANK[b.level] || near(a.subject) - near(b.subject) || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  );
  const { stage } = facts.plan;
  const aside: { card: Card; reason: string }[] = [];
  const open: Card[] = [];
  const waiting: (Card & { stage: Stage })[] = [];
  for (const card of toCards(ordered, stage)) {
    const reason = facts.plan.setAside[card.key];
    if (reason !== undefined) aside.push({ card, reason });
    else if (hasCome(card, stage)) open.push(card);
    else waiting.push({ ...card, stage: ruleById.get(card.rule)?.stage ?? FIRST_STAGE });
  }
  return {
    cards: open,
    findings: ordered,
    waiting,
    aside,
    loose: Object.fromEntries(loose),
    looked: run.looked,
    cannotTell: run.cannotTell.map(({ rule, subject, needs }) => ({ rule: rule.id, code: rule.code, level: rule.level, subject, needs })),
    notApplicable: run.notApplicable,
    todo: todo(facts, loose, run.cannotTell),
    crashed: run.crashed,
  };
}

/** A hazard shows at once; other findings wait until the parts they speak of are wired. */
function speaks(f: Finding, loose: ReadonlyMap<Id, readonly string[]>, facts: Facts): boolean {
  if (f.level === 'hazard' || ruleById.get(f.rule)?.always) return true;
  if (f.subject.kind === 'plan') return true;
  if (f.subject.kind === 'part') return !loose.has(f.subject.id);
  const wire = facts.plan.wires[f.subject.id];
  return wire !== undefined && !loose.has(wire.from.part) && !loose.has(wire.to.part);
}

/** A hazard never waits; the rest is told from the stage of the job on in which it matters. */
function hasCome(f: Pick<Finding, 'rule' | 'level'>, now: Stage | undefined): boolean {
  return f.level === 'hazard' || reached(now, ruleById.get(f.rule)?.stage);
}

/** The same report with what waits for a later stage among its cards: paper is read at the vehicle, at every stage. */
export function wholeReport(report: FindingsReport): FindingsReport {
  if (report.waiting.length === 0) return report;
  return { ...report, cards: [...report.cards, ...report.waiting].sort((a, b) => RANK[a.level] - RANK[b.level]), waiting: [] };
}

/** Required terminals that nothing is joined to, per part. */
function looseTerminals(facts: Facts): Map<Id, string[]> {
  const loose = new Map<Id, string[]>();
  for (const view of facts.parts.values()) {
    const open = view.terminals.filter((t) => t.required && !facts.isWired(`${view.part.id}.${t.id}`)).map((t) => t.label || t.title);
    if (open.length > 0) loose.set(view.part.id, open);
  }
  return loose;
}

function todo(
  facts: Facts,
  loose: ReadonlyMap<Id, readonly string[]>,
  unknown: readonly { readonly subject: Subject; readonly needs: string }[],
): Record<Id, string[]> {
  const list: Record<Id, string[]> = {};
  const add = (id: Id, text: string): void => {
    const mine = list[id] ?? [];
    if (!mine.includes(text)) mine.push(text);
    list[id] = mine;
  };
  for (const [id, open] of loose) add(id, `not joined yet: ${open.join(', ')}`);
  for (const { subject, needs } of unknown) if (subject.kind !== 'plan') add(subject.id, needs);
  for (const wire of Object.values(facts.plan.wires))
    if (wire.lengthM === undefined && wire.owner === 'build') add(wire.id, 'length not known: no run joins its zones');
  return list;
}

/** Metres of conductor back to the nearest source, for ordering cards. */
function nearness(graph: Graph, paths: FaultPaths): (s: Subject) => number {
  const best = new Map<string, number>();
  graph.nodes.forEach((name, n) => {
    const part = name.split('.')[0]!;
    best.set(part, Math.min(best.get(part) ?? Number.POSITIVE_INFINITY, paths.feed.cost[n]!));
  });
  return (s) => {
    if (s.kind === 'plan') return -1;
    const wire = s.kind === 'wire' ? graph.plan.wires[s.id] : undefined;
    const ids = wire ? [wire.from.part, wire.to.part] : [s.id];
    return Math.min(1e9, ...ids.map((id) => best.get(id) ?? 1e9));
  };
}

function toCards(findings: readonly Finding[], stage: Stage | undefined): Card[] {
  const folded = new Map<Finding, Finding>();
  for (const f of findings) {
    // Never under something milder: the card's level is what the headline counts. Nor what speaks behind what waits.
    const parent = findings.find(
      (p) =>
        p !== f &&
        RANK[p.level] <= RANK[f.level] &&
        (hasCome(p, stage) || !hasCome(f, stage)) &&
        ((p.floods && SWEPT.has(f.rule)) || ((ruleById.get(p.rule)?.explains ?? []).includes(f.rule) && touches(p, f) && sameMoment(p, f))),
    );
    if (parent && rootOf(parent, folded) !== f) folded.set(f, parent);
  }
  const cards = new Map<string, { first: Finding; findings: Finding[]; folded: Finding[] }>();
  for (const f of findings) {
    if (folded.has(f)) continue;
    const key = `${f.rule}|${f.level}`;
    const card = cards.get(key);
    if (card) card.findings.push(f);
    else cards.set(key, { first: f, findings: [f], folded: [] });
  }
  for (const f of folded.keys()) {
    const root = rootOf(f, folded);
    cards.get(`${root.rule}|${root.level}`)?.folded.push(f);
  }
  return [...cards.values()].map((c) => ({
    key: `${c.first.rule}:${c.first.level}:${c.first.subject.id}`,
    rule: c.first.rule,
    code: c.first.code,
    level: c.first.level,
    title: ruleById.get(c.first.rule)?.title ?? c.first.rule,
    findings: c.findings,
    folded: c.folded,
  }));
}

/** The finding that explains all the others in a chain. */
function rootOf(f: Finding, folded: ReadonlyMap<Finding, Finding>): Finding {
  let at = f;
  for (let up = folded.get(at); up; up = folded.get(at)) at = up;
  return at;
}

/** A start of the engine does not explain what is wrong while it runs. What is worst at the lowest supply (key at ignition) it may. */
function sameMoment(parent: Finding, f: Finding): boolean {
  return parent.state !== 'START' || f.state === null || f.state === 'START' || f.state === 'RUN_STOPPED';
}

/** Do two findings speak of the same thing? */
function touches(parent: Finding, f: Finding): boolean {
  return parent.subject.id === f.subject.id || parent.related.some((r) => r.id === f.subject.id) || f.related.some((r) => r.id === parent.subject.id);
}
