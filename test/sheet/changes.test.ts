import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { changesSince, isUnchanged, untold } from '../../src/advise/since.ts';
import { letterOf } from '../../src/analysis/views.ts';
import { apply } from '../../src/plan/apply.ts';
import { addPart, addWire, makeRevision, movePart, removeItems, setPart, setSetting, setThreshold, setVehicle, setWire } from '../../src/plan/edits.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';
import { limits } from '../../src/rules/limits.ts';
import { sheetHtml } from '../../src/sheet/index.ts';
import { demoPlan } from '../bench/largePlan.ts';

const edited = (plan: Plan, edit: Edit): Plan => {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};
const revised = (plan: Plan): Plan => {
  const made = makeRevision(plan, computeResults(plan).filled, letterOf, { date: '2025-03-04', note: 'First build' });
  if (!made.ok) throw new Error(made.reason);
  return edited(plan, made.edit);
};
const rows = (html: string, name: string): string[] => {
  const body = new RegExp(`<table[^>]*aria-label="${name}"[^>]*>.*?<tbody>(.*?)</tbody>`, 's').exec(html)?.[1] ?? '';
  return body
    .split('</tr>')
    .slice(0, -1)
    .map((row) =>
      row
        .replace(/<svg.*?<\/svg>/gs, '')
        .replace(/<[^>]+>/g, ' ')
        .replace(/&#160;|\u00a0/g, ' ')
        .replace(/&#(\d+);/g, (_, n: string) => String.fromCharCode(Number(n)))
        .replace(/\s+/g, ' ')
        .trim(),
    );
};

describe('the sheet of what changed since a revision', () => {
  const first = revised(demoPlan);
  const options = { paper: 'A4', date: '2025-04-01', since: 1 } as const;

  it('says so when nothing did, also after moves on the drawing', () => {
    const part = Object.values(first.parts).find((p) => p.owner === 'build')!;
    const moved = edited(first, movePart(first, part.id, { x: part.x + 50, y: part.y + 50 }));
    const { filled } = computeResults(moved);
    expect(isUnchanged(changesSince(filled, 1)!)).toBe(true);
    const html = sheetHtml(computeResults(moved), options);
    expect(html).toContain('Nothing that matters at the vehicle has changed since then.');
    expect(rows(html, 'Wire list')).toEqual([]);
    expect(rows(html, 'Title block')[3]).toBe('Revision 1 of 2025-03-04: First build Shows only what changed since revision 1');
  });

  it('says what changed in the facts of the vehicle and the limits, with before and after', () => {
    const { batteryAh } = first.vehicle;
    const limit = limits.find((l) => l.unit === 'share' && first.thresholds[l.key] === undefined)!;
    let now = edited(first, setVehicle(first, { batteryAh: batteryAh + 25, stopStart: true }));
    now = edited(now, setThreshold(now, limit.key, 0.0415));
    const results = computeResults(now);
    expect(isUnchanged(changesSince(results.filled, 1)!)).toBe(false);
    const html = sheetHtml(results, options);
    const changes = rows(html, 'Changes');
    expect(changes).toContain(`changed Battery capacity ${batteryAh} Ah → ${batteryAh + 25} Ah`);
    expect(changes).toContain('changed Engine stops and restarts by itself no → yes');
    expect(changes).toContain(`changed Limit: ${limit.title} ${Number((100 * limit.value).toPrecision(3))} % (default) → 4.15 %`);
    expect(html).not.toContain('cannot be told');
  });

  it('a revision of an older edition kept none of them, and says that it cannot tell', () => {
    const { vehicle: _, thresholds: __, ...was } = first.revisions!.v1!.was!;
    const old: Plan = { ...first, revisions: { v1: { ...first.revisions!.v1!, was } } };
    const now = edited(old, setVehicle(old, { batteryAh: 12 }));
    const since = changesSince(computeResults(now).filled, 1)!;
    expect(since.diff.head).toEqual([]);
    expect(untold(since)).toContain('Revision 1 was made before');
    const html = sheetHtml(computeResults(now), options);
    expect(html).toContain('whether those have changed cannot be told');
    expect(rows(html, 'Changes').join()).not.toContain('Battery capacity');
  });

  it('lists exactly what is new, changed and taken out, with before and after', () => {
    const wire = Object.values(first.wires).find((w) => w.owner === 'build' && (w.areaMm2 ?? 0) < 4)!;
    const button = Object.values(first.parts).find((p) => p.kind === 'push-button')!;
    const out = Object.values(first.wires).filter((w) => [w.from.part, w.to.part].includes(button.id));
    let now = edited(first, setWire(first, wire.id, { areaMm2: 6 }));
    now = edited(now, removeItems(now, [button.id]));
    const led = addPart(now, {
      kind: 'resistor',
      zone: wire ? now.parts[wire.from.part]!.zone : '',
      x: 400,
      y: 400,
      name: 'Bleeder',
      note: 'behind the glove box',
    });
    now = edited(now, led.edit);
    const feed = addWire(now, wire.from, { part: led.id, terminal: '1' });
    now = edited(now, feed.edit);
    now = edited(now, setSetting(now, led.id, 'ohm', 2200));
    const results = computeResults(now);
    const html = sheetHtml(results, options);
    const changes = rows(html, 'Changes');
    const number = (id: string): string => `W${results.filled.wires[id]!.number}`;
    expect(changes.some((r) => r.startsWith(`changed ${number(wire.id)} `) && r.includes('→ 6 mm²'))).toBe(true);
    expect(changes.some((r) => r.startsWith('new ') && r.includes('Bleeder'))).toBe(true);
    expect(changes.some((r) => r.startsWith(`new ${number(feed.id)} `))).toBe(true);
    for (const gone of out) expect(changes.some((r) => r.startsWith(`taken out W${first.wires[gone.id]!.number} `))).toBe(true);
    const diff = changesSince(results.filled, 1)!.diff;
    // The wire list of this print: new and changed ones alone, each marked.
    const listed = rows(html, 'Wire list').map((r) => r.split(' ').slice(0, 2).join(' '));
    expect(listed.sort()).toEqual([...diff.wires.added.map((w) => `${number(w.id)} new`), ...diff.wires.changed.map((r) => `${number(r.id)} changed`)].sort());
    expect(rows(html, 'Parts list').join('\n')).toContain('behind the glove box');
    // The number of a wire that was taken out is not the new one's.
    expect(out.map((w) => `W${first.wires[w.id]!.number}`)).not.toContain(number(feed.id));
    expect(rows(sheetHtml(results, { paper: 'A4', date: '2025-04-01' }), 'Title block')[3]).toBe(
      'Revision 1 of 2025-03-04: First build; changed since Shows the whole build',
    );
  });

  it('prints as-built notes of wires and parts', () => {
    const part = Object.values(demoPlan.parts).find((p) => p.owner === 'build')!;
    const wire = Object.values(demoPlan.wires).find((w) => w.owner === 'build')!;
    let now = edited(demoPlan, setPart(demoPlan, part.id, { note: 'sits <left> of the bracket' }));
    now = edited(now, setWire(now, wire.id, { note: 'runs behind the pillar' }));
    const html = sheetHtml(computeResults(now), { paper: 'A4', date: '2025-04-01' });
    expect(rows(html, 'Parts list').join('\n')).toContain('sits <left> of the bracket');
    expect(rows(html, 'Wire list').join('\n')).toContain('runs behind the pillar');
    expect(html).not.toContain('<left>');
    expect(rows(html, 'Title block').join('\n')).not.toContain('Revision');
  });
});
