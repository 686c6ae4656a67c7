import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { settlePlan } from '../../src/advise/settle.ts';
import { allEvents, defaultScenario, keyCycle, timeBase, worstMargins } from '../../src/analysis/time/index.ts';
import type { CycleTrace } from '../../src/analysis/time/types.ts';
import { sheetHtml } from '../../src/sheet/index.ts';
import { labelRows } from '../../src/sheet/timing/axis.ts';
import { momentRows, voltsAt } from '../../src/sheet/timing/moments.ts';
import { rightRoom, scaleOf, stripPicture } from '../../src/sheet/timing/picture.ts';
import { demoPlan, largePlan } from '../bench/largePlan.ts';

const plan = demoPlan;
const { filled, known } = settlePlan(plan);
const base = timeBase(filled, known);
const cycle = keyCycle(base, defaultScenario(plan));
const margins = worstMargins(base);
const name = (id: string): string => plan.parts[id]?.name ?? 'Computer';
const options = { paper: 'A4', date: '2025-03-04' } as const;
const html = sheetHtml(computeResults(plan), { ...options, time: { cycle, margins } });
const piece = /<h2>One turn of the key<\/h2>(.*?)<\/section>/s.exec(html)?.[1] ?? '';

describe('the key cycle on the sheet', () => {
  it('says in a sentence what it comes to', () => {
    const spare = Math.floor(margins[0]?.spareS ?? Number.NaN);
    expect(spare).toBeGreaterThan(0);
    expect(piece).toContain(`Stopped ${spare} s before power falls, at worst (low supply, door opened at once`);
  });

  it('is there only when it has been worked out', () => {
    expect(sheetHtml(computeResults(plan), options)).not.toContain('One turn of the key');
    expect(sheetHtml(computeResults(plan), { ...options, time: { cycle: { ...cycle, outcome: 'cancelled' }, margins } })).not.toContain('One turn of the key');
  });

  it('says where a calculation got stuck', () => {
    const stuck = { ...cycle, outcome: 'stuck' as const, stuck: { tS: 5.25, where: 'K1 Hold relay', why: 'no state' as const } };
    expect(sheetHtml(computeResults(plan), { ...options, time: { cycle: stuck, margins: null } })).toContain(
      'got stuck at 5.3 s: no state fits the parts at K1 Hold relay',
    );
  });

  it('tells what surges and dips do to the parts, compact, once that has been worked out', () => {
    expect(piece).not.toContain('Surges, dips');
    const told = sheetHtml(computeResults(plan), { ...options, time: { cycle, margins, events: allEvents(base) } });
    expect(told).toContain('In 8 events of the supply no figure goes beyond what its part is stated to stand.');
    // A clamped load dump of 35 V (ISO 16750-2, test B) on a capacitor rated 50 V.
    expect(told.replaceAll('\u00a0', ' ')).toMatch(/Bulk capacitor<.*volts across it.*3[45]\.\d V of 50 V.*Load dump, clamped/s);
  });

  it('prints in black, white and grey, with letters of 8 pt or more', () => {
    const colours = new Set([...piece.matchAll(/(?:fill|stroke)="(#[0-9a-f]+)"/g)].map((m) => m[1]));
    expect([...colours].sort()).toEqual(['#000', '#333', '#666', '#777', '#e8e8e8', '#fff']);
    const [, mm, units] = /width="([\d.]+)mm".*?viewBox="0 0 ([\d.]+)/.exec(piece) ?? [];
    // 1 pt = 25.4 mm / 72.
    for (const [, size] of piece.matchAll(/font-size="([\d.]+)"/g)) expect((Number(size) * Number(mm)) / Number(units) / (25.4 / 72)).toBeGreaterThanOrEqual(8);
  });

  it('has every moment with its figures in the table', () => {
    const rows = momentRows(cycle, name);
    expect(piece.match(/<tr>/g)).toHaveLength(rows.length + 1);
    for (const row of rows) expect(piece).toContain(row.what);
    expect(piece).not.toMatch(/NaN|undefined|\bsafe\b/);
  });

  it('gives the drawing an id of its own', () => {
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe('moments', () => {
  const rows = momentRows(cycle, name);

  it('stand in order, each told once', () => {
    rows.slice(1).forEach((row, i) => {
      expect(row.tS).toBeGreaterThan(rows[i]!.tS);
    });
    expect(rows[0]?.what).toBe('Parked');
    expect(rows.map((r) => r.what).join()).toMatch(/Start,.*owest battery,.*Running,.*omputer up,.*Held,.*omputer stops,.*omputer stopped,.*omputer off/);
  });

  it('the lowest battery is the least volts of cranking', () => {
    const battery = cycle.traces.find((t) => t.id === 'battery') as CycleTrace;
    const start = cycle.key.find((k) => k.state === 'START');
    const least = Math.min(...[...battery.volts].filter((_, i) => battery.tS[i]! >= start!.fromS && battery.tS[i]! <= start!.toS));
    expect(rows.find((r) => /lowest battery/i.test(r.what))?.volts[0]).toBe(least);
  });
});

describe('a trace read at a time', () => {
  const trace: CycleTrace = {
    id: 'battery',
    label: '',
    part: null,
    tS: Float64Array.of(0, 2, 2, 4),
    volts: Float64Array.of(12, 10, 14, 14),
  };
  it('lies on straight lines, after a jump on what follows, and nowhere outside', () => {
    expect(voltsAt(trace, 1)).toBe(11);
    expect(voltsAt(trace, 2)).toBe(14);
    expect(voltsAt(trace, 4)).toBe(14);
    expect(voltsAt(trace, 4.1)).toBeNaN();
    expect(voltsAt({ ...trace, tS: new Float64Array(), volts: new Float64Array() }, 1)).toBeNaN();
  });
});

describe('the picture of the strip', () => {
  for (const width of [330, 820]) {
    it(`stays inside ${width} units, and its words do not run over the edge`, () => {
      const scale = scaleOf(cycle, width, rightRoom(cycle, name));
      const { primitives, height } = stripPicture(cycle, scale, width, name);
      for (const p of primitives) {
        const [xs, ys] =
          p.t === 'line'
            ? [p.pts.filter((_, i) => i % 2 === 0), p.pts.filter((_, i) => i % 2 === 1)]
            : p.t === 'rect'
              ? [
                  [p.x, p.x + p.w],
                  [p.y, p.y + p.h],
                ]
              : [[p.x], [p.y]];
        for (const x of xs) expect(x >= -0.5 && x <= width + 0.5, `${p.t} at x ${x}`).toBe(true);
        for (const y of ys) expect(y >= -0.5 && y <= height + 0.5, `${p.t} at y ${y}`).toBe(true);
      }
    });
  }

  it('tells the computer’s states in words where there is room', () => {
    const scale = scaleOf(cycle, 820, rightRoom(cycle, name));
    const words = stripPicture(cycle, scale, 820, name).primitives.flatMap((p) => (p.t === 'text' ? [p.text] : []));
    for (const word of ['Start', 'Running', 'Held', 'boots', 'up', 'stops', 'stopped', 'battery', 'converter', '5 V', 'needs 4.4 V'])
      expect(words).toContain(word);
  });

  it('finds rows for names: earlier ones choose first, nothing covers another', () => {
    const labels = [
      { from: 0, to: 50 },
      { from: 40, to: 90 },
      { from: 45, to: 60 },
      { from: 50, to: 80 },
    ];
    expect(labelRows(labels, 2)).toEqual([0, 1, null, 0]);
  });
});

describe('one turn of the key with several computers', () => {
  const many = computeResults(largePlan(90));
  const text = sheetHtml(many, { paper: 'A4', date: 'x', time: { cycle: keyCycle(timeBase(many.filled), defaultScenario(many.filled)), margins: null } });
  const section = /<h2>One turn of the key<\/h2>(.*?)<\/section>/s.exec(text)?.[1] ?? '';

  it('calls parts of one name by their item numbers too, and keeps their names apart', () => {
    const names = [...section.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]*)</g)].map(([, x, y, name]) => ({
      x: Number(x),
      y: Number(y),
      name: name as string,
    }));
    const ends = names.filter((n) => /^(T\d+ Step-down|5 V A\d+ Computer|needs 4\.4 V|battery)$/.test(n.name)).sort((a, b) => a.y - b.y);
    expect(ends.filter((e) => e.name.startsWith('T'))).toHaveLength(3);
    expect(ends).toHaveLength(8);
    // Type of 11 units: lines nearer than 12 lie on one another.
    for (let i = 1; i < ends.length; i++) expect(ends[i]!.y - ends[i - 1]!.y, ends[i]!.name).toBeGreaterThanOrEqual(12);
  });

  it('gives the width of the key’s column to the volts', () => {
    expect(section).not.toContain('>Key</th>');
    expect(section).toContain('>Moment</th>');
  });
});
