import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { BALANCED_STRAY, cellLimitV, cellsOf, worstCellV } from '../../parts/storeFigures.ts';
import { called, defineRule, part, plain, three, verdicts, volts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { hopsOf, netAt } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('cells-over-volted', 'F5');
/** Most cells that are put in a row by hand (common practice, no source). */
const MOST_CELLS = 24;
/** What a balanced cell gets of its even share, at most. */
const BALANCED = 1 + BALANCED_STRAY;
/** A charger is set to a round tenth of a volt. */
const STEP_V = 0.1;

export const cellsOverVolted = defineRule({
  id: 'cells-over-volted',
  code: 'F5',
  level: 'hazard',
  title: 'Supercapacitor cells over-volted or cooked',
  why: 'Cells in a row share the voltage by their size: the smallest gets the most. Above its rating a cell gasses, swells and vents, and in heat its rating is lower.',
  source: { text: 'Data sheet of a 2.7 V cell (read): 2.7 V up to 65 °C, 2.3 V up to 85 °C', grade: 'data sheet' },
  needs: 'readings',
  always: true,
  check: (facts) => facts.ofKind('store').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    return view ? repairs(facts, view) : [];
  },
});

/** The most that ever stands across the bank, V; null when nothing was solved. */
function mostV(facts: Facts, view: PartView): number | null {
  const all = facts.solved.map((r) => facts.across(`${view.part.id}.+`, `${view.part.id}.-`, r.state, r.band)).filter((v): v is number => v !== null);
  return all.length === 0 ? null : Math.max(...all);
}

function judge(facts: Facts, view: PartView): Verdict[] {
  if (!facts.isWired(`${view.part.id}.+`) || !facts.isWired(`${view.part.id}.-`)) return [];
  const subject = part(view.part.id);
  const total = mostV(facts, view);
  if (total === null) return [unknown(subject, 'what it is filled to')];
  const limitV = cellLimitV(view.s, view.maxC);
  const worstV = worstCellV(view.s, total);
  const balanced = view.s.flag('balanced') || cellsOf(view.s) === 1;
  if (worstV <= limitV && balanced) return [fine(subject)];
  const hot = view.maxC > view.s.num('ratedC') ? ` at the ${plain(view.maxC)} °C of its place` : '';
  const over = worstV > limitV;
  return [
    found({
      level: over ? 'hazard' : 'advice',
      subject,
      what: over
        ? `${called(view)} is filled to ${volts(total)}: the smallest of its ${cellsOf(view.s)} cells gets ${three(worstV)} V${hot} and stands ${limitV === 0 ? 'no such heat at all' : volts(limitV)}.`
        : `The ${cellsOf(view.s)} cells of ${called(view)} are not balanced: today the smallest gets ${three(worstV)} V, but they drift apart with the years.`,
      todo: balanced ? 'Add a cell, fill it less, or put it in a cooler place.' : 'Fit balancers, one for each cell.',
      figures: [
        { label: 'smallest cell gets', value: worstV, unit: 'V' },
        { label: 'a cell stands', value: limitV, unit: 'V' },
      ],
      state: 'RUN_CHARGING',
      band: 'high',
    }),
  ];
}

function repairs(facts: Facts, view: PartView): Repair[] {
  const total = mostV(facts, view);
  const limitV = cellLimitV(view.s, view.maxC);
  if (total === null) return [];
  const balanced = view.s.flag('balanced');
  // Balancers first: without them more cells alone would leave the finding as advice.
  const share = (cells: number): number => (cells === 1 ? total : (total / cells) * BALANCED);
  const list: Repair[] = [];
  const id = view.part.id;
  if (!balanced && share(cellsOf(view.s)) <= limitV) list.push(typing(id, { balanced: true }, 'Fit balancers', true));
  for (let cells = cellsOf(view.s) + 1; cells <= MOST_CELLS && limitV > 0 && list.length === 0; cells++) {
    if (share(cells) <= limitV) list.push(typing(id, { cells, balanced: true }, `Fit ${cells} cells in a row, balanced`, false));
  }
  const charger = chargerOf(facts, view);
  const fullV = Math.floor((limitV * cellsOf(view.s)) / BALANCED / STEP_V) * STEP_V;
  if (charger && balanced && fullV > 0 && fullV < charger.s.num('fullV')) {
    list.push(typing(charger.part.id, { fullV: Number(fullV.toFixed(1)) }, `Let ${called(charger)} stop at ${plain(fullV)} V`, false));
  }
  return list;
}

/** The limiter that fills a bank, over its fuse if need be. */
function chargerOf(facts: Facts, view: PartView): PartView | null {
  const plus = netAt(facts, view, '+');
  const near = new Set([plus, ...(hopsOf(facts).get(plus) ?? []).filter((h) => h.link.type === 'fuse').map((h) => h.to)]);
  return facts.ofKind('charge-limiter').find((c) => near.has(netAt(facts, c, 'store'))) ?? null;
}
