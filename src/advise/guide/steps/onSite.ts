import { setFitted, setSetting, setTicks } from '../../../plan/edits.ts';
import type { Edit, Stage } from '../../../plan/types.ts';
import type { JobEntry } from '../../jobTypes.ts';
import { fact } from '../checks.ts';
import type { Check, GuideStep, Scope } from '../types.ts';

/** What is done away from the screen: the lists of the job line, a line at a time, since only the person knows. */
function onSite(stage: Stage, words: Pick<GuideStep, 'title' | 'todo' | 'why'>, all: string): GuideStep {
  return {
    ...words,
    id: stage,
    stage,
    byHand: 'Answers, “Job”: the whole list of this stage, with boxes to tick.',
    rules: [],
    checks(scope): Check[] {
      const entries = entriesOf(scope, stage);
      const open = entries.filter((e) => !e.done);
      const next = open.slice(0, 3).map((e): Check => ({ text: saying(e), met: false, about: e.subject ? [e.subject] : [] }));
      const count = open.length === 0 ? all : `${entries.length - open.length} of ${entries.length} lines are done.`;
      return [fact(count, entries.length > 0 && open.length === 0), ...next];
    },
    offer(scope) {
      const next = entriesOf(scope, stage).find((e) => !e.done);
      const edit = next && close(scope, next);
      return next && edit ? { title: `Done: ${saying(next)}`, edit } : null;
    },
  };
}

/** Lines that a person closes; what the plan itself must answer belongs to the steps before. */
function entriesOf({ job }: Scope, stage: Stage): readonly JobEntry[] {
  return job.find((s) => s.stage === stage)?.entries.filter((e) => e.by.how !== 'plan') ?? [];
}

const saying = (entry: JobEntry): string => (entry.about === '' ? entry.text : `${entry.about}. ${entry.text}`);

function close({ plan, results }: Scope, { by, subject }: JobEntry): Edit | null {
  if (by.how === 'tick') return setTicks(plan, by.keys, true, by.instead);
  if (by.how === 'setting' && subject) return setSetting(plan, subject.id, by.setting, true);
  if (by.how !== 'fit' || !subject) return null;
  const ids = { parts: subject.kind === 'part' ? [subject.id] : [], wires: subject.kind === 'wire' ? [subject.id] : [] };
  return setFitted(plan, results.filled, ids, true);
}

export const find = onSite(
  'find',
  {
    title: 'Measure the leads you tap',
    todo: 'With the meter, in every key position, prove that each lead is what the plan takes it for, and read the fuse that the vehicle has for it.',
    why: 'A colour proves nothing: what looks like a constant lead may feed an airbag or go dead with the lights.',
  },
  'Every lead is measured.',
);
export const buy = onSite(
  'buy',
  {
    title: 'Buy what is on the list',
    todo: 'Parts, fuses, wire by size and colour, terminals. Tick what lies on the table.',
    why: 'Started without the right terminal, a joint gets twisted and taped, and that is what fails.',
  },
  'All is bought.',
);
export const wiring = onSite(
  'wire',
  {
    title: 'Wire it, zone by zone',
    todo: 'Battery off first. Mount and join what the list names, zone by zone, and leave the fuse at the tap out until the last.',
    why: 'A ticked part or wire keeps its values: what you draw later changes nothing that is cut and crimped.',
  },
  'All is in its place.',
);
export const trying = onSite(
  'test',
  {
    title: 'Try it, fuse by fuse',
    todo: 'Measure in the order of the list, each against the figure that was computed, before you put the next fuse in.',
    why: 'A wrong joint shows as a wrong figure while nothing is connected that could be hurt.',
  },
  'All is tried.',
);
export const software = onSite(
  'software',
  {
    title: 'Set the computer up',
    todo: 'Enter the pins of the plan into the computer’s settings, and make it stop when the key goes off.',
    why: 'The wiring gives the computer its minute. Only the program makes use of it.',
  },
  'All is set up.',
);
export const keep = onSite(
  'keep',
  {
    title: 'Print the sheet and keep it',
    todo: 'Print the wiring sheet, put it with the vehicle’s papers, and save the plan as a file.',
    why: 'In two years someone will look behind that dash. It may be you, without a memory of it.',
  },
  'All is kept.',
);
