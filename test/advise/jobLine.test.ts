import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { JobEntry, JobStage } from '../../src/advise/jobTypes.ts';
import { apply } from '../../src/plan/apply.ts';
import { setFitted, setHead, setSetting, setStage, setTicks, setWire } from '../../src/plan/edits.ts';
import type { Edit, Plan, Stage } from '../../src/plan/types.ts';
import { contextOf } from '../../src/sheet/context.ts';
import { jobOf } from '../../src/sheet/jobLists.ts';
import { demoPlan } from '../bench/largePlan.ts';
import { deepFreeze } from '../plan/laws.ts';
import { bench, ground } from '../rules/plans.ts';

const edited = (plan: Plan, edit: Edit): Plan => {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};
const job = (plan: Plan): readonly JobStage[] => jobOf(plan, computeResults(plan));
const at = (stages: readonly JobStage[], stage: Stage): JobStage => stages.find((s) => s.stage === stage)!;
const entriesOf = (plan: Plan, stage: Stage): readonly JobEntry[] => at(job(plan), stage).entries;
const texts = (plan: Plan, stage: Stage): string[] => entriesOf(plan, stage).map((e) => e.text);
/** A tick as a person sets it: by key, as the entry says. */
const tick = (plan: Plan, entry: JobEntry, done = true): Plan => {
  if (entry.by.how !== 'tick') throw new Error(`${entry.key} is not ticked`);
  return edited(plan, setTicks(plan, entry.by.keys, done, entry.by.instead));
};

describe('the job line', () => {
  it('has seven stages in order, each with its own count, and takes a frozen plan', () => {
    const stages = job(deepFreeze(structuredClone(demoPlan)));
    expect(stages.map((s) => s.stage)).toEqual(['find', 'draw', 'buy', 'wire', 'test', 'software', 'keep']);
    for (const s of stages) {
      expect(s.open).toBe(s.entries.filter((e) => !e.done).length);
      expect(new Set(s.entries.map((e) => e.key)).size, `${s.stage}: keys`).toBe(s.entries.length);
      for (const e of s.entries) expect(e.text, e.key).toMatch(/^\S.*\.$/);
      for (const e of s.entries) expect(e.text, e.key).not.toMatch(/undefined|NaN|\bsafe\b/);
    }
  });

  it('has nothing to buy, wire, try, set or keep for a bare vehicle', () => {
    const stages = job(ground().without('ground').plan);
    for (const stage of ['buy', 'wire', 'test', 'software', 'keep'] as const) expect(at(stages, stage).entries, stage).toEqual([]);
  });

  it('find: leads to measure and fuses to read, until the plan says that it was done', () => {
    const b = bench('taps').set('feed30', { proven: false, donorFuseRead: false });
    const mine = (plan: Plan) => entriesOf(plan, 'find').filter((e) => e.subject?.id === b.id('feed30') && e.by.how === 'setting');
    expect(mine(b.plan).map((e) => e.done)).toEqual([false, false]);
    const measured = edited(b.plan, setSetting(b.plan, b.id('feed30'), 'proven', true));
    expect(mine(measured).map((e) => e.done)).toEqual([true, false]);
  });

  it('find: asks for the vehicle’s facts and not for those of our own parts; a joint is asked for once one is wiring', () => {
    const b = bench('facts', { polarity: 'unknown' }).set('feed30', { joint: 'unknown' });
    expect(texts(b.plan, 'find').join('\n')).toMatch(/battery is joined to the body/);
    const joint = /how our wire joins/;
    expect(texts(b.plan, 'find').some((t) => joint.test(t))).toBe(false);
    expect(texts(edited(b.plan, setStage(b.plan, 'wire')), 'find').some((t) => joint.test(t))).toBe(true);
  });

  it('draw: loose terminals, hazards and faults, and wires that have no length', () => {
    const loose = ground('loose').part('converter', 'step-down', 'seat');
    expect(entriesOf(loose.plan, 'draw').map((e) => e.key)).toContain(`draw:loose:${loose.id('converter')}`);
    const bare = bench('no fuse').without('fuse').wire('feed30.out', 'relay.30', { lengthM: 2.2 }, 'bare');
    const report = computeResults(bare.plan).report;
    const cards = report.cards.filter((c) => c.level !== 'advice');
    expect(cards.length).toBeGreaterThan(0);
    expect(entriesOf(bare.plan, 'draw').filter((e) => /^(Hazard|Fault)/.test(e.about))).toHaveLength(cards.length);
    // No run joins the two zones of the feed.
    const b = bench('far');
    const far = edited({ ...b.plan, runs: {} }, setWire({ ...b.plan, runs: {} }, b.wireId('feed'), { lengthM: undefined }));
    expect(entriesOf(far, 'draw').map((e) => e.key)).toContain(`draw:length:${b.wireId('feed')}`);
  });

  it('buy: a tick holds until what is to be bought changes; what is fitted was bought', () => {
    const context = contextOf(computeResults(demoPlan));
    const fuse = context.ours.find((v) => v.kind.kind === 'blade-fuse')!;
    const entry = (plan: Plan) => entriesOf(plan, 'buy').find((e) => e.text.includes(`(${fuse.item})`))!;
    const bought = tick(demoPlan, entry(demoPlan));
    expect(entry(bought).done).toBe(true);
    expect(entry(edited(bought, setHead(bought, { title: 'Other' }))).done).toBe(true);
    expect(entry(edited(bought, setSetting(bought, fuse.part.id, 'ratingA', 15))).done).toBe(false);
    expect(entry(tick(bought, entry(bought), false)).done).toBe(false);
    const { filled } = computeResults(demoPlan);
    expect(entry(edited(demoPlan, setFitted(demoPlan, filled, { parts: [fuse.part.id], wires: [] }, true))).done).toBe(true);
  });

  it('wire: every part and wire of the build once, by zone, and nothing of the vehicle', () => {
    const entries = entriesOf(demoPlan, 'wire');
    const context = contextOf(computeResults(demoPlan));
    expect(entries.map((e) => e.subject!.id).sort()).toEqual([...context.ours.map((v) => v.part.id), ...context.wires.map((w) => w.id)].sort());
    const zones = entries.map((e) => demoPlan.zones[e.group!.key]!.order);
    expect(zones).toEqual([...zones].sort((a, b) => a - b));
    const first = context.wires[0]!;
    const { filled } = computeResults(demoPlan);
    const fitted = edited(demoPlan, setFitted(demoPlan, filled, { parts: [], wires: [first.id] }, true));
    expect(at(job(fitted), 'wire').open).toBe(entries.length - 1);
  });

  it('test: a check is open again once its expected reading changes', () => {
    const parked = (plan: Plan) => entriesOf(plan, 'test').find((e) => e.group?.title === 'Parked draw')!;
    const done = tick(demoPlan, parked(demoPlan));
    expect(parked(done).done).toBe(true);
    const relay = Object.values(demoPlan.parts).find((p) => p.kind === 'delay-off-relay')!;
    const thirsty = edited(done, setSetting(done, relay.id, 'idleA', 0.002));
    expect(parked(thirsty).text).not.toBe(parked(done).text);
    expect(parked(thirsty).done).toBe(false);
  });

  it('software: what the plan wants of the program, and a tick that lapses with it', () => {
    const computer = Object.values(demoPlan.parts).find((p) => p.kind === 'computer')!;
    const said = texts(demoPlan, 'software').join('\n');
    expect(said).toMatch(/watch GPIO 17 \(pin 11\): it reads low while the key is on/);
    expect(said).toMatch(/steady for 3 s/);
    expect(said).toMatch(/within 25 s/);
    expect(said).not.toMatch(/console|bus/);
    const filter = (plan: Plan) => entriesOf(plan, 'software').find((e) => e.text.includes('believe the key'))!;
    const set = tick(demoPlan, filter(demoPlan));
    expect(filter(set).done).toBe(true);
    expect(filter(edited(set, setSetting(set, computer.id, 'filterS', 5))).done).toBe(false);
    const serial = bench('serial').wire('computer.8', 'computer.10', {}, 'loop');
    expect(texts(serial.plan, 'software').join('\n')).toMatch(/Switch the serial console off: GPIO 14, 15 have another job/);
  });

  it('keep: sheet and file grow old with the next change, the file also with the next tick', () => {
    const entry = (plan: Plan, key: string) => entriesOf(plan, 'keep').find((e) => e.key === key)!;
    let plan = tick(demoPlan, entry(demoPlan, 'keep:sheet'));
    plan = tick(plan, entry(plan, 'keep:file'));
    const both = (p: Plan) => ['keep:sheet', 'keep:file'].map((key) => entry(p, key).done);
    expect(both(plan)).toEqual([true, true]);
    expect(both(edited(plan, setStage(plan, 'keep')))).toEqual([true, true]);
    const { filled } = computeResults(plan);
    const part = Object.values(plan.parts).find((p) => p.owner === 'build')!;
    expect(both(edited(plan, setFitted(plan, filled, { parts: [part.id], wires: [] }, true)))).toEqual([true, false]);
    const changed = edited(plan, setHead(plan, { title: 'Other' }));
    expect(both(changed)).toEqual([false, false]);
    const again = tick(changed, entry(changed, 'keep:sheet'));
    expect(Object.keys(again.ticks ?? {}).filter((k) => k.startsWith('keep:sheet:'))).toHaveLength(1);
  });

  it('keep: one line for each place where the vehicle was touched', () => {
    const undo = entriesOf(demoPlan, 'keep').filter((e) => e.key.startsWith('keep:undo:'));
    const vehicle = (id: string) => demoPlan.parts[id]?.owner === 'vehicle';
    const ends = Object.values(demoPlan.wires)
      .filter((w) => w.owner === 'build')
      .flatMap((w) => [w.from, w.to]);
    expect(undo).toHaveLength(ends.filter((e) => vehicle(e.part)).length);
    expect(undo.length).toBeGreaterThan(0);
  });
});
