import { headline, lookedText } from '../../advise/headline.ts';
import { wholeReport } from '../../advise/report.ts';
import type { Card, Results } from '../../advise/types.ts';
import { KEY_POSITIONS, type WireReport } from '../../analysis/types.ts';
import type { Finding } from '../../rules/types.ts';
import { type Context, contextOf, wireName } from '../context.ts';
import { amps, daysText, dropVolts, figureText, lengthText, percent, volts } from '../figures.ts';
import { LEVEL_WORDS, plural, whereText } from '../words.ts';

/** Wires shown; the rest are counted. */
const MOST_WIRES = 20;

/** The compact report for a terminal: findings with figures, what arrives, the hardest worked wires, the parked draw. */
export function reportText(computed: Results): string {
  const results = { ...computed, report: wholeReport(computed.report) };
  const context = contextOf(results);
  const { vehicle, title } = context.plan;
  const blocks = [
    [
      `${title || 'Untitled plan'} (${vehicle.name || 'vehicle not named'}, ${vehicle.systemV} V, ${vehicle.batteryAh} Ah)`,
      `${headline(results.report)} · ${lookedText(results.report)}`,
    ],
    findings(results),
    notComputed(context, results),
    arrivals(context),
    wires(context),
    parked(context),
    unknowns(results),
  ];
  return `${blocks
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')
    .replaceAll('\u00a0', ' ')}\n`;
}

function findings(results: Results): string[] {
  const { cards, aside } = results.report;
  if (cards.length + aside.length === 0) return [];
  return ['Findings', ...cards.flatMap((card) => cardLines(card)), ...aside.flatMap(({ card, reason }) => cardLines(card, reason))];
}

function cardLines(card: Card, reason?: string): string[] {
  const times = card.findings.length > 1 ? ` ×${card.findings.length}` : '';
  return [
    `  ${LEVEL_WORDS[card.level]} ${card.code} ${card.title}${times}${reason === undefined ? '' : ` (set aside: ${reason})`}`,
    ...findingLines(card.findings),
  ];
}

/** What to do stands once where it is the same everywhere. */
function findingLines(findings: readonly Finding[]): string[] {
  const [first] = findings;
  const isSame = findings.length > 1 && findings.every((f) => f.todo === first?.todo);
  const lines = findings.flatMap((f) => {
    const figures = f.figures.map((x) => `${x.label} ${figureText(x.value, x.unit)}`);
    const where = whereText(f.state, f.band);
    const facts = [...figures, ...(where === '' ? [] : [`worst in: ${where}`])].join('; ');
    return [`    ${isSame ? f.what : `${f.what} ${f.todo}`}`, ...(facts === '' ? [] : [`    [${facts}]`])];
  });
  return isSame ? [...lines, `    ${first?.todo ?? ''}`] : lines;
}

/** States without a solution are said first of all: their figures are missing below. */
function notComputed(context: Context, results: Results): string[] {
  const bad = results.analysis.readings.filter((r) => r.status !== 'solved');
  if (bad.length === 0) return [];
  const at = (where: string): string => {
    const id = where.split(/[:.]/)[0] ?? '';
    return context.views.has(id) ? ` at ${context.label(id)}` : '';
  };
  return ['Not computed', ...bad.map((r) => `  ${whereText(r.state, r.band)}: ${r.trouble ? `${r.trouble.kind}${at(r.trouble.where)}` : 'no solution'}`)];
}

function arrivals(context: Context): string[] {
  const running = KEY_POSITIONS.findIndex((k) => k.key === 'Running');
  const rows = context.results.analysis.arrivals.map((a) => {
    const least = a.worstLow ? `least ${volts(a.worstLow.v)} (${whereText(a.worstLow.state, null)}: ${a.worstLow.corner})` : '';
    const most = a.worstHigh ? `most ${volts(a.worstHigh.v)} (${whereText(a.worstHigh.state, null)}: ${a.worstHigh.corner})` : '';
    const wants = a.minV !== null && a.maxV !== null ? `wants ${volts(a.minV)} to ${volts(a.maxV)}` : '';
    const typical = `typical ${volts(a.typical[running] ?? Number.NaN)}`;
    const what = a.label === context.views.get(a.part)?.name ? '' : `, ${a.label}`;
    return `  ${context.label(a.part)}${what}: ${[typical, least, most, wants].filter(Boolean).join(', ')}`;
  });
  return rows.length === 0 ? [] : ['What arrives, Running', ...rows];
}

function wires(context: Context): string[] {
  const rows = context.wires
    .flatMap((wire) => {
      const report = context.results.analysis.wires[wire.id];
      return report ? [{ wire, report }] : [];
    })
    .sort((a, b) => strain(b.report) - strain(a.report));
  if (rows.length === 0) return [];
  const lines = rows.slice(0, MOST_WIRES).map(({ wire, report: r }) => {
    const drop = `drop ${dropVolts(r.worstDropV)}${r.worstDropShare === null ? '' : ` (${percent(r.worstDropShare)})`}`;
    const fuse = protectionText(r);
    return `  ${wireName(wire)} ${context.endLabel(wire.from)} to ${context.endLabel(wire.to)}: ${r.areaMm2} mm², ${lengthText(r.lengthM, 'm')}, ${amps(r.heatA)} of ${amps(r.limitA)}, ${drop}, ${fuse}`;
  });
  const rest = rows.length - lines.length;
  return ['Wires, hardest worked first', ...lines, ...(rest > 0 ? [`  and ${plural(rest, 'more wire')}`] : [])];
}

/** What keeps a wire from burning; between a tap and its first fuse nothing does, however short it is. */
function protectionText(r: WireReport): string {
  if (r.isProtected) return `protected by ${r.protectedBy || 'what feeds it'}`;
  if (r.unfused) return 'no fuse ahead of it';
  return r.protectedBy === '' ? 'NOT PROTECTED' : `NOT PROTECTED: ${r.protectedBy} lets more through than it carries`;
}

/** How near a wire is to its limit, or to a drop of a tenth. */
function strain(r: WireReport): number {
  return Math.max(r.heatA / r.limitA, (r.worstDropShare ?? 0) / 0.1);
}

function parked(context: Context): string[] {
  const { parked: p } = context.results.analysis;
  const who = p.shares.slice(0, 3).map((s) => `${s.name} ${amps(s.amp)}`);
  return [
    'Parked',
    `  this build ${amps(p.buildA)}${who.length > 0 ? ` (${who.join(', ')})` : ''}, vehicle ${amps(p.vehicleA)}, battery itself ${amps(p.selfA)}: ${daysText(p.days)}, ${daysText(p.daysWithout)} without this build`,
  ];
}

function unknowns(results: Results): string[] {
  const needs = new Map<string, number>();
  for (const c of results.report.cannotTell) needs.set(c.needs, (needs.get(c.needs) ?? 0) + 1);
  const crashed = results.report.crashed.map((c) => `  ${c.rule} failed to run: ${c.message}`);
  if (needs.size + crashed.length === 0) return [];
  return ['Could not tell', ...[...needs].map(([need, n]) => `  needs ${need}${n > 1 ? ` (×${n})` : ''}`), ...crashed];
}
