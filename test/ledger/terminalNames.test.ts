import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeResults, proposals } from '../../src/advise/index.ts';
import { readPlan } from '../../src/codec/index.ts';
import { describeEdit } from '../../src/ledger/describe.ts';
import { endName } from '../../src/ledger/lookup.ts';
import { settingsOf } from '../../src/parts/definePart.ts';
import { partKinds } from '../../src/parts/index.ts';
import type { Plan } from '../../src/plan/types.ts';
import { jobOf } from '../../src/sheet/jobLists.ts';

const FOLDER = 'public/plans';

const TERMINALS = [...partKinds.values()].flatMap((kind) => kind.terminals(settingsOf(kind, {})));
const PRINTED = new Set(TERMINALS.map((t) => t.label));
/** Terminal ids that no drawing prints: "0v" is drawn as "0 V". "up" is a word as well. */
const HIDDEN = new Set(TERMINALS.map((t) => t.id).filter((id) => id.length > 1 && id !== 'up' && !PRINTED.has(id)));

/** Names that only the plan file knows. */
function rawIds(text: string): string[] {
  const words = text.split(/[\s,.;:()]+/);
  return words.filter((w) => HIDDEN.has(w) || /^[pwzr]\d+$/.test(w) || /^[a-z]+[A-Z][a-z]+$/.test(w));
}

function open(file: string): Plan {
  const read = readPlan(readFileSync(`${FOLDER}/${file}`, 'utf8'));
  if (!read.ok) throw new Error(`${file} cannot be read`);
  return read.plan;
}

describe('a terminal is called as on the drawing', () => {
  it('ids that are not printed anywhere are known', () => {
    expect([...HIDDEN]).toEqual(expect.arrayContaining(['0v', '5v', 'bl', 'set2', 'usb']));
  });

  it.each(readdirSync(FOLDER).filter((f) => f.endsWith('.plan.json')))('%s: in repairs, at pins, on wires and in the words of findings', (file) => {
    const plan = open(file);
    const results = computeResults(plan);
    const { report, analysis, filled } = results;
    const said = [
      ...analysis.pins.map((p) => p.label),
      ...analysis.arrivals.flatMap((a) => [a.worstLow?.corner ?? '', a.worstHigh?.corner ?? '']),
      ...Object.values(filled.wires).flatMap((w) => [endName(filled, w.from), endName(filled, w.to)]),
      ...report.findings.flatMap((f) => [f.what, f.todo, ...f.figures.map((x) => x.label)]),
      ...report.cannotTell.map((c) => c.needs),
      ...jobOf(plan, results, 'm').flatMap((s) => s.entries.flatMap((e) => [e.about, e.text])),
    ];
    for (const finding of report.findings) {
      for (const repair of proposals(plan, results, finding)) said.push(repair.title, ...describeEdit(plan, repair.edit));
    }
    const wrong = said.filter((text) => rawIds(text).length > 0);
    expect(wrong).toEqual([]);
  });

  it('a joint is its name alone, a fuse says which side, a name that ends with its terminal says it once', () => {
    const plan = open('school-minibus.plan.json');
    const ends = Object.values(plan.wires).flatMap((w) => [endName(plan, w.from), endName(plan, w.to)]);
    expect(ends).toEqual(expect.arrayContaining(['Step-down 0 V', 'Computer pin 6', 'Fuse, side towards the load', 'Side lamps 58', 'Touch display 5 V']));
  });
});
