import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { apply } from '../../src/plan/apply.ts';
import { addPart } from '../../src/plan/edits.ts';
import { smallPlan } from '../plan/laws.ts';

type Loose = Record<string, never>;
/** The small plan as loose JSON, changed by hand. */
function broken(change: (raw: ReturnType<typeof loose>) => void): readonly { readonly where: string; readonly what: string }[] {
  const raw = loose();
  change(raw);
  const read = readPlan(JSON.stringify(raw));
  if (read.ok) throw new Error('not refused');
  return read.problems;
}
const loose = () =>
  JSON.parse(writePlan(smallPlan().plan)) as Record<string, unknown> & {
    vehicle: Record<string, unknown>;
    zones: Record<string, Record<string, unknown>>;
    runs: Record<string, Record<string, unknown>>;
    parts: Record<string, Record<string, unknown> & { settings: Record<string, unknown> }>;
    wires: Record<string, Record<string, unknown>>;
  };
const { ids } = smallPlan();

describe('reading a plan says what is wrong and where', () => {
  it('a setting above its limit, with the unit', () => {
    expect(
      broken((raw) => {
        raw.parts[ids.fuse]!.settings.ratingA = 900;
      }),
    ).toStrictEqual([{ where: `parts › ${ids.fuse} (blade-fuse) › ratingA`, what: '900 is above the largest allowed 40 A' }]);
  });

  it('a setting of the wrong sort, and one that does not exist', () => {
    const problems = broken((raw) => {
      raw.parts[ids.fuse]!.settings = { ratingA: 'five', colour: 'red' };
    });
    expect(problems[0]).toStrictEqual({ where: `parts › ${ids.fuse} (blade-fuse) › ratingA`, what: 'must be a number, not “five”' });
    expect(problems[1]?.where).toBe(`parts › ${ids.fuse} (blade-fuse) › colour`);
    expect(problems[1]?.what).toMatch(/^no such setting; a blade-fuse has ratingA, /);
  });

  it('an unknown part kind', () => {
    const problems = broken((raw) => {
      raw.parts[ids.resistor]!.kind = 'flux-capacitor';
    });
    expect(problems).toStrictEqual([{ where: `parts › ${ids.resistor} (flux-capacitor) › kind`, what: 'there is no part kind “flux-capacitor”' }]);
  });

  it('a wire to a missing part and to a missing terminal', () => {
    const problems = broken((raw) => {
      raw.wires[ids.feedWire]!.from = { part: 'p99', terminal: '1' };
      raw.wires[ids.loadWire]!.from = { part: ids.fuse, terminal: '3' };
    });
    expect(problems).toStrictEqual([
      { where: `wires › ${ids.feedWire} › from`, what: 'there is no part “p99”' },
      { where: `wires › ${ids.loadWire} › from`, what: `${ids.fuse} (blade-fuse) has no terminal “3”; it has 1, 2` },
    ]);
  });

  it('a wire onto itself, a part in no zone, a run to nowhere, a row under a wrong id', () => {
    const problems = broken((raw) => {
      raw.wires[ids.feedWire]!.from = raw.wires[ids.feedWire]!.to;
      raw.parts[ids.fuse]!.zone = 'z9';
      raw.runs.r5!.b = 'z9';
      raw.wires[ids.loadWire]!.bends = [
        { x: 1, y: 2 },
        { x: 1, y: 2, zone: 'z9' },
      ];
      raw.zones.z4!.id = 'z5';
    });
    expect(problems.map((p) => p.where)).toStrictEqual([
      'zones › z4 › id',
      'runs › r5 › b',
      `parts › ${ids.fuse} (blade-fuse) › zone`,
      `wires › ${ids.feedWire}`,
      `wires › ${ids.loadWire} › bends`,
    ]);
  });

  it('missing fields, choices and stray keys', () => {
    const problems = broken((raw) => {
      delete raw.vehicle.batteryAh;
      raw.vehicle.systemV = 48;
      raw.vehicle.dipLevel = 'V';
      raw.extra = 1;
      raw.title = 7;
    });
    expect(problems).toContainEqual({ where: 'vehicle › batteryAh', what: 'is missing' });
    expect(problems).toContainEqual({ where: 'vehicle › systemV', what: '48 is not one of 12, 24' });
    expect(problems).toContainEqual({ where: 'vehicle › dipLevel', what: '“V” is not one of I, II, III, IV' });
    expect(problems).toContainEqual({ where: 'extra', what: 'is not known here' });
    expect(problems).toContainEqual({ where: 'title', what: 'must be text, not 7' });
  });

  it('ids that would confuse readings', () => {
    const problems = broken((raw) => {
      raw.zones['a.b'] = { ...raw.zones.z4, id: 'a.b' };
    });
    expect(problems).toContainEqual({ where: 'zones › a.b', what: 'this name cannot be used here' });
  });

  it('zone temperatures the wrong way round', () => {
    const problems = broken((raw) => {
      Object.assign(raw.zones.z1!, { minC: 50, maxC: 20 });
    });
    expect(problems).toStrictEqual([{ where: 'zones › z1 › minC', what: '50 °C is above the zone’s largest temperature, 20 °C' }]);
  });
});

describe('files that are no plan', () => {
  const what = (text: string): string => {
    const read = readPlan(text);
    if (read.ok) throw new Error('not refused');
    return read.problems.map((p) => `${p.where}: ${p.what}`).join('; ');
  };
  it('says so', () => {
    expect(what('')).toMatch(/^: this is not JSON/);
    expect(what('{"format": "x"\n"version": 1}')).toMatch(/not JSON \(line 2\)/);
    expect(what('[1, 2]')).toBe(': this is JSON, but not a plan');
    expect(what('{"hello": 1}')).toMatch(/^format: this is not a Dashloom plan/);
    expect(what('{"format": "dashloom-plan"}')).toBe('version: must be a whole number from 0 to 1');
    expect(what('{"format": "dashloom-plan", "version": 7}')).toBe('version: this plan is in format 7, from a newer edition; this edition reads up to 1');
    expect(what(' '.repeat(5_000_001))).toMatch(/longer than 5 MB/);
  });

  it('a byte order mark does no harm', () => {
    expect(readPlan(`\uFEFF${writePlan(smallPlan().plan)}`).ok).toBe(true);
  });
});

describe('repairs while reading', () => {
  it('raises a next number that is taken, and says so', () => {
    const raw = loose();
    const read = readPlan(JSON.stringify({ ...raw, nextSerial: 2 }));
    if (!read.ok) throw new Error('refused');
    expect(read.plan.nextSerial).toBe(smallPlan().plan.nextSerial);
    expect(read.notes).toHaveLength(1);
    expect(read.notes[0]).toContain('it is now');
  });

  it('takes an id with a longer number than any plan comes to for a name: no number is counted on from it', () => {
    const raw = loose();
    const part = raw.parts[ids.fuse]!;
    delete raw.parts[ids.fuse];
    const long = 'p9007199254740993';
    raw.parts[long] = { ...part, id: long };
    for (const wire of Object.values(raw.wires) as { from: { part: string }; to: { part: string } }[])
      for (const end of [wire.from, wire.to]) if (end.part === ids.fuse) end.part = long;
    const read = readPlan(JSON.stringify(raw));
    if (!read.ok) throw new Error('refused');
    expect(read.plan.nextSerial).toBe(raw.nextSerial);
    const { edit } = addPart(read.plan, { kind: 'resistor', zone: Object.keys(read.plan.zones)[0]!, x: 20, y: 20 });
    const done = apply(read.plan, edit);
    expect(done.ok && readPlan(writePlan(done.plan)).ok).toBe(true);
    expect(broken((bad) => Object.assign(bad, { nextSerial: Number.MAX_SAFE_INTEGER }))[0]?.where).toBe('nextSerial');
  });

  it('moves parts in that stand left of their zone or above it, and says so', () => {
    const raw = loose();
    Object.assign(raw.parts[ids.fuse]!, { x: -5000, y: -20 });
    const read = readPlan(JSON.stringify(raw));
    if (!read.ok) throw new Error('refused');
    expect(read.plan.parts[ids.fuse]).toMatchObject({ x: 0, y: 0 });
    expect(read.notes).toStrictEqual([`Part ${ids.fuse} stood outside its zone and was moved in.`]);
  });

  it('accepts other ids and keeps rows in order', () => {
    const raw = loose();
    const rest = raw.parts as unknown as Loose;
    const read = readPlan(JSON.stringify({ ...raw, parts: { spare: { ...raw.parts[ids.resistor], id: 'spare' }, ...rest } }));
    expect(read.ok && Object.keys(read.plan.parts)).toStrictEqual([ids.battery, ids.fuse, ids.resistor, 'spare']);
  });
});
