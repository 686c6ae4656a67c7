import type { PartView } from '../analysis/factsTypes.ts';
import { bySerial, viewsOf } from '../analysis/views.ts';
import { atTerminal } from '../parts/index.ts';
import { reached, STAGES } from '../plan/stages.ts';
import type { Plan, Stage, Wire } from '../plan/types.ts';
import { ruleById } from '../rules/index.ts';
import { filePrint, fingerprint, KEEP, sheetPrint } from './fingerprint.ts';
import { softwareLines } from './jobSoftware.ts';
import type { Group, JobEntry, JobLine, JobLists, JobStage } from './jobTypes.ts';
import type { Results } from './types.ts';

/** Everything that the entries are made from. */
interface Job {
  readonly plan: Plan;
  readonly results: Results;
  readonly lists: JobLists;
  readonly views: ReadonlyMap<string, PartView>;
  readonly ours: readonly PartView[];
  readonly wires: readonly Wire[];
}

/**
 * The job stage by stage, with what is open and what is done in each. Pure; `results` must be those of `plan`.
 */
export function jobLine(plan: Plan, results: Results, lists: JobLists): readonly JobStage[] {
  const views = viewsOf(results.filled);
  const job: Job = {
    plan,
    results,
    lists,
    views,
    ours: [...views.values()].filter(isOurs),
    wires: Object.values(results.filled.wires)
      .filter((w) => w.owner === 'build')
      .sort((a, b) => (a.number ?? Number.MAX_SAFE_INTEGER) - (b.number ?? Number.MAX_SAFE_INTEGER) || bySerial(a, b)),
  };
  return STAGES.map((stage) => {
    const entries = ENTRIES[stage](job);
    return { stage, entries, open: entries.filter((e) => !e.done).length };
  });
}

const ENTRIES: Readonly<Record<Stage, (job: Job) => JobEntry[]>> = { find, draw, buy, wire: fit, test, software, keep };

const isOurs = (view: PartView): boolean => view.part.owner === 'build' && view.kind.owner !== 'vehicle';
const called = (view: PartView): string => `${view.item} ${view.name}`;
/** "K1 Hold relay 30"; "X2 Constant 30" alone, whose name ends with its terminal. */
const endCalled = (view: PartView, id: string): string => atTerminal(called(view), view.terminals, id);
const wireCalled = (wire: Wire): string => `Wire ${wire.number === undefined ? wire.id : `W${wire.number}`}`;

/** Leads to measure, fuses to read, and what is not known of taps and vehicle. */
function find({ plan, results, views }: Job): JobEntry[] {
  const entries: JobEntry[] = [];
  for (const view of views.values()) {
    if (!view.facts.tap) continue;
    const ask = (setting: string, text: string): void => {
      if (!view.kind.settings.some((s) => s.key === setting && s.type === 'flag')) return;
      const subject = { kind: 'part', id: view.part.id } as const;
      entries.push({ key: `find:${view.part.id}:${setting}`, subject, about: called(view), text, by: { how: 'setting', setting }, done: view.s.flag(setting) });
    };
    ask('proven', 'Measure it in every key position: a colour proves nothing.');
    ask('donorFuseRead', 'Find the vehicle’s fuse for this lead and read its rating.');
  }
  const asked = new Set<string>();
  for (const { rule, subject, needs } of results.report.cannotTell) {
    const view = subject.kind === 'part' ? views.get(subject.id) : undefined;
    const theirs = subject.kind === 'plan' || (view !== undefined && !isOurs(view));
    const key = `find:${subject.kind}:${subject.id}:${needs}`;
    if (!theirs || asked.has(key) || !reached(plan.stage, ruleById.get(rule)?.stage)) continue;
    asked.add(key);
    entries.push({ key, subject: view ? subject : null, about: view ? called(view) : 'Vehicle', text: `Find out ${needs}.`, by: { how: 'plan' }, done: false });
  }
  return entries;
}

/** What is loose, has no length, or is wrong. */
function draw({ results, views, wires }: Job): JobEntry[] {
  const entries: JobEntry[] = [];
  const add = (key: string, subject: JobEntry['subject'], about: string, text: string): void => {
    entries.push({ key: `draw:${key}`, subject, about, text, by: { how: 'plan' }, done: false });
  };
  for (const card of results.report.cards) {
    const first = card.findings[0];
    if (card.level === 'advice' || !first) continue;
    const times = card.findings.length > 1 ? ` in ${card.findings.length} places` : '';
    const subject = first.subject.kind === 'plan' ? null : first.subject;
    add(card.key, subject, `${card.level === 'hazard' ? 'Hazard' : 'Fault'}${times}`, `${card.title}.`);
  }
  for (const [id, labels] of Object.entries(results.report.loose)) {
    const view = views.get(id);
    if (view) add(`loose:${id}`, { kind: 'part', id }, called(view), `Join what is still loose: ${labels.join(', ')}.`);
  }
  for (const wire of wires) {
    if (wire.lengthM === undefined)
      add(`length:${wire.id}`, { kind: 'wire', id: wire.id }, wireCalled(wire), 'Type its length, or add a run between its two zones.');
  }
  return entries;
}

function buy({ plan, lists }: Job): JobEntry[] {
  return lists.buy.map((line) => ticked(plan, line));
}

/** Every part and wire that goes into the vehicle; a wire lies where the leftmost of its ends does. */
function fit({ plan, ours, views, wires, results }: Job): JobEntry[] {
  const { zones } = results.filled;
  const orderOf = (zone: string): number => zones[zone]?.order ?? 0;
  const groupOf = (zone: string): Group => ({ key: zone, title: zones[zone]?.name ?? zone });
  const parts = ours.map(
    (view): JobEntry => ({
      key: `wire:${view.part.id}`,
      subject: { kind: 'part', id: view.part.id },
      about: called(view),
      text: 'Mount it.',
      by: { how: 'fit' },
      done: plan.parts[view.part.id]?.fitted === true,
      group: groupOf(view.part.zone),
    }),
  );
  const rows = wires.map((wire): JobEntry => {
    const [from, to] = [views.get(wire.from.part), views.get(wire.to.part)];
    const ends = [from, to].flatMap((v) => (v ? [v.part.zone] : [])).sort((a, b) => orderOf(a) - orderOf(b));
    const end = (view: PartView | undefined, terminal: string): string => (view ? endCalled(view, terminal) : terminal);
    return {
      key: `wire:${wire.id}`,
      subject: { kind: 'wire', id: wire.id },
      about: wireCalled(wire),
      text: `From ${end(from, wire.from.terminal)} to ${end(to, wire.to.terminal)}.`,
      by: { how: 'fit' },
      done: plan.wires[wire.id]?.fitted === true,
      group: groupOf(ends[0] ?? ''),
    };
  });
  return [...parts, ...rows].sort((a, b) => orderOf(a.group?.key ?? '') - orderOf(b.group?.key ?? ''));
}

function test({ plan, lists }: Job): JobEntry[] {
  return lists.test.map((line) => ticked(plan, line));
}

function software({ plan, results, ours }: Job): JobEntry[] {
  return ours
    .filter((view) => view.kind.kind === 'computer')
    .flatMap((view) =>
      softwareLines(results, view).map((line): JobEntry => {
        const key = `software:${view.part.id}:${line.key}`;
        return { ...ticked(plan, { keys: [key], text: line.text }), subject: { kind: 'part', id: view.part.id }, about: called(view) };
      }),
    );
}

/** Papers and files; those that a change makes old are open again after it. */
function keep({ plan, results, ours, lists }: Job): JobEntry[] {
  if (ours.length === 0) return [];
  const once = (name: string, print: string, text: string): JobEntry => {
    const instead = `${KEEP}${name}:`;
    const entry = ticked(plan, { keys: [instead + print], text });
    return { ...entry, key: `${KEEP}${name}`, by: { how: 'tick', keys: [instead + print], instead } };
  };
  return [
    once('sheet', sheetPrint(results.filled), 'Print the wiring sheet as the plan is now, and put it with the vehicle’s papers.'),
    once('file', filePrint(plan), 'Save the plan as a file, somewhere other than this device.'),
    ...lists.restore.map(({ wire, at }): JobEntry => {
      const row = results.filled.wires[wire];
      const text = `At ${at}: write down what was cut, unplugged or moved, and how to undo it.`;
      const entry = ticked(plan, { keys: [`${KEEP}undo:${wire}:${fingerprint(at)}`], text });
      return { ...entry, subject: { kind: 'wire', id: wire }, about: row ? wireCalled(row) : wire };
    }),
    once('card', fingerprint(lists.card), 'Cut out the owner’s card and leave it in the vehicle.'),
  ];
}

function ticked(plan: Plan, line: JobLine): JobEntry {
  const parts = line.parts ?? [];
  const wires = line.wires ?? [];
  const inPlace = parts.length + wires.length > 0 && parts.every((id) => plan.parts[id]?.fitted) && wires.every((id) => plan.wires[id]?.fitted);
  const [part] = parts;
  return {
    key: line.keys[0] ?? line.text,
    subject: part !== undefined && parts.length === 1 ? { kind: 'part', id: part } : null,
    about: '',
    text: line.text,
    by: { how: 'tick', keys: line.keys },
    ...(line.group ? { group: line.group } : {}),
    done: inPlace || (line.keys.length > 0 && line.keys.every((key) => plan.ticks?.[key])),
  };
}
