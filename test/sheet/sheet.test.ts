import { describe, expect, it } from 'vitest';
import type { WireReport } from '../../src/analysis/types.ts';
import { bringUp } from '../../src/sheet/bringUp/steps.ts';
import { contextOf } from '../../src/sheet/context.ts';
import { partsListCsv, sheetHtml, wireListCsv } from '../../src/sheet/index.ts';
import { cutLengthM, wireRows, wireToBuy } from '../../src/sheet/wireRows.ts';
import { plan, results } from './fixture.ts';

const context = contextOf(results);
const html = sheetHtml(results, { paper: 'A4', date: '2025-03-04', who: 'A. Fitter' });

/** Reads CSV back by RFC 4180. */
function parse(text: string): string[][] {
  const rows: string[][] = [];
  for (const line of text.split('\r\n').slice(0, -1)) {
    rows.push([...line.matchAll(/"((?:[^"]|"")*)"(?:,|$)/g)].map((m) => (m[1] as string).replaceAll('""', '"')));
  }
  return rows;
}

/** Cells of each body row of the table of that name, tags removed. */
function rowsOf(name: string): string[][] {
  const found = new RegExp(`<table aria-label="${name}"[^>]*>.*?<tbody>(.*?)</tbody>`, 's').exec(html);
  if (!found) throw new Error(`no table "${name}"`);
  return (found[1] as string)
    .split('</tr>')
    .slice(0, -1)
    .map((row) =>
      [...row.matchAll(/<td[^>]*>(.*?)<\/td>/gs)].map((m) =>
        (m[1] as string)
          .replace(/<br>/g, ' ')
          .replace(/<[^>]+>/g, '')
          .replaceAll('\u00a0', ' ')
          .trim(),
      ),
    );
}

describe('wire list', () => {
  it('has one line a wire of the build and none of the vehicle', () => {
    expect(rowsOf('Wire list').map((r) => r[0])).toEqual(['W1', 'W2', 'W3', 'W4', 'W5', 'W6', 'W7', 'W8']);
    expect(parse(wireListCsv(results))).toHaveLength(1 + 8);
    expect(wireRows(context).some((r) => r.id === 'w20')).toBe(false);
  });

  it('says what to cut: the run + 10 % + 100 mm at each end, rounded up to 50 mm', () => {
    // 2.2 x 1.1 + 0.2 = 2.62; 0.8 x 1.1 + 0.2 = 1.08; 2.0 x 1.1 + 0.2 = 2.40 exactly. By hand.
    expect(cutLengthM(2.2)).toBe(2.65);
    expect(cutLengthM(0.8)).toBe(1.1);
    expect(cutLengthM(2)).toBe(2.4);
  });

  it('gives both ends, size in both systems, colour in words and letters, load, drop and fuse', () => {
    const w2 = rowsOf('Wire list')[1] as string[];
    expect(w2[1]).toMatch(/F1 Blade fuse.*blade receptacle.*→ T1 Step-down · in.*ferrule under screw/);
    // It stays in one zone, so no way is told.
    expect(w2[1]).not.toContain('(');
    // AWG 14 is 2.08 mm², AWG 16 1.31 mm² (ASTM B258): the thicker one is the cautious match of 1.5 mm².
    expect(w2[2]).toBe('1.5 mm² AWG 14');
    expect(w2[3]).toBe('red with white stripe RD/WH');
    expect(w2[4]).toBe('2.20 m cut 2.65 m');
    expect(w2[5]).toBe('0.8 A');
    // 60 mV of 12 V is half a per cent.
    expect(w2[6]).toBe('60 mV 0.5 %');
    expect(w2[7]).toBe('F1');
    expect((rowsOf('Wire list')[0] as string[])[7]).toBe('none');
  });

  it('says when a fuse is too big for the wire behind it, on paper and in the file', () => {
    const w22 = results.analysis.wires.w22 as WireReport;
    const bad = { ...results, analysis: { ...results.analysis, wires: { ...results.analysis.wires, w22: { ...w22, isProtected: false } } } };
    const sheet = sheetHtml(bad, { paper: 'A4', date: 'x' });
    expect(sheet).toContain('<td>F1 (too much)</td>');
    expect(sheet).toContain('lets more through than the wire carries');
    expect(wireListCsv(bad)).toContain('F1 (too much)');
    expect(html).not.toContain('oo much');
  });

  it('crosses the boxes of what was fitted before, and says what the cross means', () => {
    const w22 = results.filled.wires.w22!;
    const some = { ...results, filled: { ...results.filled, wires: { ...results.filled.wires, w22: { ...w22, fitted: true } } } };
    const crosses = (text: string) => text.split('aria-label="done"').length - 1;
    const sheet = sheetHtml(some, { paper: 'A4', date: 'x' });
    // Cut and crimped; it has yet to be tested.
    expect(crosses(sheet)).toBe(2);
    expect(sheet).toContain('A crossed box: fitted before this was printed');
    expect(crosses(html)).toBe(0);
    expect(html).not.toContain('crossed box');
  });

  it('sums the wire to buy', () => {
    const black = wireToBuy(wireRows(context)).find((b) => b.areaMm2 === 1.5 && b.colour === 'black');
    // W3 1.10 + W5 0.25 x 1.1 + 0.2 = 0.475, rounded up 0.50.
    expect(black?.metres).toBeCloseTo(1.6, 6);
    expect(black?.pieces).toBe(2);
  });

  it('shows feet when asked', () => {
    // 2.2 m / 0.3048 = 7.2 ft.
    expect(sheetHtml(results, { paper: 'A4', date: '2025-03-04', lengths: 'ft' })).toContain('7.2\u00a0ft');
  });
});

describe('long words', () => {
  it('may be broken on paper, where a column would not hold them; others stay as they are', () => {
    const p8 = results.filled.parts.p8!;
    const named = (name: string) =>
      sheetHtml({ ...results, filled: { ...results.filled, parts: { ...results.filled.parts, p8: { ...p8, name } } } }, { paper: 'A4', date: 'x' });
    expect(named('N'.repeat(60))).toContain(`${'N'.repeat(12)}\u200b${'N'.repeat(12)}\u200b`);
    expect(named('https://example.invalid/abcdef')).toContain('https://exam\u200bple.invalid/\u200babcdef');
    expect(named('Next page')).not.toContain('\u200b');
  });
});

describe('other lists', () => {
  it('keeps the vehicle’s parts off the parts list and names them as taps', () => {
    const parts = rowsOf('Parts list').map((r) => r[1]);
    expect(parts).toHaveLength(6);
    expect(parts).not.toContain('Battery');
    expect(parse(partsListCsv(results))).toHaveLength(1 + 6);
    const taps = rowsOf('Taps');
    expect(taps).toHaveLength(2);
    expect(taps[0]?.[0]).toContain('Radio feed');
    expect(taps[0]?.[3]).toBe('W1');
    expect(taps[0]?.slice(5, 11)).toEqual(Array(6).fill('12.5 V'));
  });

  it('lists the fuse with body colour, what it protects and its distance from the tap', () => {
    const [fuse] = rowsOf('Fuses');
    // Tan for 5 A: ISO 8820-3 (from memory).
    expect(fuse?.[2]).toContain('5 A, tan');
    expect(fuse?.[5]).toBe('W2, W3');
    expect(fuse?.[8]).toBe('0.12 m');
  });

  it('lists all 40 pins, used ones with level, pull and wire', () => {
    const pins = rowsOf('Header pins');
    expect(pins.map((r) => r[0])).toEqual(Array.from({ length: 40 }, (_, i) => String(i + 1)));
    // Physical pin 29 carries GPIO 5 (board maker's pin table, from memory).
    expect(pins[28]).toEqual(['29', 'GPIO 5', 'Next page', 'high, 3.3 V internal pull-up', 'W6']);
    expect(pins[6]?.[2]).toBe('leave free');
  });

  it('shows taps, outputs and the computer in each key position', () => {
    expect(rowsOf('Key positions')).toEqual([
      ['X1 Radio feed &#60;30&#62;, lead', ...Array(6).fill('12.5 V')],
      ['T1 Step-down, output', ...Array(6).fill('5.1 V')],
      ['A1 =Desk computer', 'up', 'up', 'up', 'up', 'up', 'stopped'],
    ]);
    expect(html).toContain('key off until stopped: not more than 31 s.');
  });

  it('puts a formula out of action in a spreadsheet', () => {
    const text = partsListCsv(results);
    expect(text).toContain(`"'=Desk computer"`);
    expect(text).not.toContain('"=');
  });

  it('puts one out of action that hides behind spaces, and leaves a negative number a number', () => {
    const named = (name: string) => {
      const p8 = results.filled.parts.p8!;
      return partsListCsv({ ...results, filled: { ...results.filled, parts: { ...results.filled.parts, p8: { ...p8, name } } } });
    };
    for (const name of [' =1+1', '\t@x', '+1-1', '-2+3']) expect(named(name)).toContain(`"'${name}"`);
    expect(named('-5')).toContain('"-5"');
  });
});

describe('trying it', () => {
  const steps = bringUp(context);
  const expected = (step: string, measure: RegExp): string =>
    (steps.find((s) => s.title === step)?.checks.find((c) => measure.test(c.measure))?.expected ?? 'missing').replaceAll('\u00a0', ' ');

  it('keeps fitting order and leaves out what the plan does not have', () => {
    expect(steps.map((s) => s.title)).toEqual([
      'Look and pull',
      'No shorts',
      'Ground wires',
      'Taps, key by key',
      'First current, limited',
      'Stand-in load',
      'Drops under load',
      'Ground drop',
      'What arrives',
      'Pins',
      'Start the engine',
      'Key off',
      'Parked draw',
      'Warmth',
      'The vehicle as before',
    ]);
  });

  it('works its figures out from this plan', () => {
    // Two crimps of 2 mohm + 0.8 m of 1.5 mm² at 13.3 mohm/m (IEC 60228 class 5) = 14.6 mohm.
    expect(expected('Ground wires', /W3/)).toContain('15 mΩ');
    // 12 V 5 W lamp: 28.8 ohm; 3 mA idle: 86 mV.
    expect(expected('First current, limited', /input/)).toContain('86 mV');
    // 5.12 V +-2 %.
    expect(expected('First current, limited', /output/)).toBe('5.12 V (5.02 V to 5.22 V)');
    // 5.12 x 5.1 / (5.1 + 0.004 + 0.25 x 0.0133 + 0.01) = 5.10.
    expect(expected('Stand-in load', /W4/)).toBe('5.1 V');
    // From the fixture's readings: 12.49 - 12.46.
    expect(expected('Drops under load', /F1/)).toContain('30 mV');
    expect(expected('Drops under load', /W2/)).toBe('60 mV at 0.8 A');
    expect(expected('Ground drop', /computer/)).toContain('30 mV');
    expect(expected('What arrives', /computer/)).toContain('4.96 V to 5.22 V at worst');
    // 0.8 V: the lower limit of 3.3 V logic (JESD8C, from memory).
    expect(expected('Pins', /pin 29.*: pressed/)).toBe('below 0.8 V');
    expect(expected('Start the engine', /input/)).toBe('not below 12.4 V');
    // Filter 3 s + programs 3 s + stop 25 s.
    expect(expected('Key off', /until stopped/)).toBe('not more than 31 s');
    expect(expected('Parked draw', /Difference/)).toContain('2.5 mA');
  });
});

describe('the sheet', () => {
  it('carries title block, cautions, findings with figures, what was not told, what was set aside and why, owner’s card', () => {
    for (const text of [
      'Van of the fixture',
      '12 V, negative to ground',
      '90 Ah',
      '2025-03-04',
      'A. Fitter',
      'Check against the vehicle before work.',
      'No hazard, no fault found · 61 looked at · 1 needs a fact · 1 set aside',
      'Wire W1 runs 0.12 m from the tap to its fuse. Keep it that short.',
      'unfused length 0.12\u00a0m; worst in: Running, low supply',
      'the rating of the vehicle’s own fuse',
      'It is driven every week.',
      'To isolate this build: pull F1 (5 A, Behind the radio).',
      'Parked limit: 35\u00a0days; 37\u00a0days without this build.',
    ]) {
      expect(html).toContain(text);
    }
    expect(rowsOf('To take it out again').map((r) => r.slice(0, 2))).toEqual([['W1', 'X1 Radio feed &#60;30&#62;, terminal 30']]);
  });

  it('never says "safe" and shows no tick mark of its own', () => {
    expect(html).not.toMatch(/\bsafe\b/i);
    expect(html).not.toMatch(/[✓✔☑]/);
  });

  it('warns in the title block as long as a hazard is open', () => {
    const [card] = results.report.cards;
    if (!card) throw new Error('fixture has a card');
    const bad = sheetHtml({ ...results, report: { ...results.report, cards: [{ ...card, level: 'hazard' }] } }, { paper: 'A4', date: 'x' });
    expect(bad).toContain('open hazards: do not build it');
    expect(bad).toContain('1 hazard · 61 looked at');
    expect(html).not.toContain('open hazards');
  });

  it('stands alone and lets no text of the plan become markup', () => {
    expect(html).toContain('<h1>Fixture &#38; &#34;title&#34; &#60;/style&#62;</h1>');
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    expect(html).not.toMatch(/<script|<link|<img|@import|url\(|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
  });

  it('prints: paper size, page numbers, repeated heads, no type below 8 pt', () => {
    expect(html).toContain('@page { size: A4 portrait;');
    expect(sheetHtml(results, { paper: 'Letter', date: 'x' })).toContain('@page wide { size: Letter landscape;');
    expect(html).toContain('"page " counter(page) " of " counter(pages)');
    expect(html).toContain('thead { display: table-header-group; }');
    for (const [, pt] of html.matchAll(/(\d+(?:\.\d+)?)pt\b/g)) expect(Number(pt)).toBeGreaterThanOrEqual(8);
  });

  it('reads as saved', async () => {
    // Text only: style and drawing have tests of their own.
    const text = html
      .replace(/<(style|svg|title)\b.*?<\/\1>/gs, '')
      .replace(/<\/(td|th)>/g, ' | ')
      .replace(/<(br|\/p|\/li|\/h\d|\/tr)>/g, '\n')
      .replace(/<[^>]+>/g, '')
      .replaceAll('\u00a0', ' ')
      .replace(/&#(\d+);/g, (_, n: string) => String.fromCharCode(Number(n)))
      .replace(/ *\n\s*/g, '\n');
    await expect(text).toMatchFileSnapshot('saved/sheet.txt');
  });

  it('is the same text for the same plan', () => {
    expect(sheetHtml(results, { paper: 'A4', date: '2025-03-04', who: 'A. Fitter' })).toBe(html);
  });

  it('prints an empty plan without lists', () => {
    const empty = { ...results, filled: { ...plan, parts: {}, wires: {} }, analysis: { ...results.analysis, pins: [], arrivals: [] } };
    const text = sheetHtml(empty, { paper: 'A4', date: 'x' });
    expect(text).toContain('no fuse of this build isolates it');
    expect(text).not.toContain('NaN');
  });

  it('never prints a figure that is not a number', () => {
    expect(html).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });
});
