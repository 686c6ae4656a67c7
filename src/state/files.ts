import type { Read } from '../codec/index.ts';
import type { Plan } from '../plan/types.ts';
import { noteCopy } from './copies.ts';
import { fetchedCode, tellMissing } from './missing.ts';
import type { App } from './store.ts';

/** Largest plan file that is read, bytes. */
export const LARGEST_FILE = 5_000_000;
/** Problems named in a notice before "and n more". */
const NAMED_PROBLEMS = 5;

/** The codec carries the schemas: it is fetched only when a file is opened or saved. */
const codec = () => fetchedCode(() => import('../codec/index.ts'));

/** What is used of a File, so that tests need no browser. */
export interface TextFile {
  readonly name: string;
  readonly size: number;
  /** Fetched with the page: no copy that a person keeps. */
  readonly comesWithPage?: boolean;
  text(): Promise<string>;
}

/** Last word on a plan read from a file before it is opened, e.g. a new id when another plan has it already. */
export type Place = (plan: Plan) => Promise<{ readonly plan: Plan; readonly note?: string }>;

/**
 * Opens a plan file. When it cannot be read, a notice names every problem with its place and the open plan stays.
 * @returns true when the plan was opened.
 */
export async function openFile(app: App, file: TextFile, place?: Place): Promise<boolean> {
  const fail = (text: string): false => {
    app.getState().setNotice({ kind: 'problem', text: `${file.name} was not opened. ${text} Nothing has been changed.` });
    return false;
  };
  if (file.size > LARGEST_FILE) return fail('It is larger than 5 MB, which no plan is.');
  let text: string;
  try {
    text = await file.text();
  } catch {
    return fail('The browser could not read the file.');
  }
  const opened = await openText(app, text, file.name, place);
  if (opened && !file.comesWithPage) noteCopy(app);
  return opened;
}

/** The plan in a text, or null when it is none. */
export async function planFrom(text: string): Promise<Plan | null> {
  const read = await codec().then((c) => c.readPlan(text));
  return read.ok ? read.plan : null;
}

/** Opens a plan from its text; `from` names it in notices. */
export async function openText(app: App, text: string, from: string, place?: Place): Promise<boolean> {
  let read: Read;
  try {
    read = (await codec()).readPlan(text);
  } catch {
    tellMissing(app, 'What reads a plan', () => void openText(app, text, from, place));
    return false;
  }
  if (!read.ok) {
    const named = read.problems.slice(0, NAMED_PROBLEMS).map((p) => (p.where === '' ? p.what : `${p.where}: ${p.what}`));
    const more = read.problems.length - named.length;
    const list = [...named, ...(more > 0 ? [`and ${more} more`] : [])].join('\n');
    app.getState().setNotice({ kind: 'problem', text: `${from} was not opened; nothing has been changed.\n${list}` });
    return false;
  }
  const placed = place ? await place(read.plan) : { plan: read.plan };
  app.getState().load(placed.plan);
  const notes = [...read.notes, ...(placed.note === undefined ? [] : [placed.note])];
  app.getState().setNotice({ kind: 'info', text: [`Opened ${placed.plan.title || from}.`, ...notes].join('\n'), ...(notes.length > 0 ? { stays: true } : {}) });
  return true;
}

/** Name of a plan's file: its title without what file systems refuse, and the suffix. */
export function fileName(plan: Pick<Plan, 'title'>): string {
  const name = plan.title
    .replace(/[\\/:*?"<>|]+|\p{Cc}+/gu, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[. ]+|[. ]+$/g, '')
    .slice(0, 80);
  return `${name === '' ? 'plan' : name}.plan.json`;
}

/** Gives the open plan to the person as a file. Does nothing when no plan is open. */
export async function saveFile(app: App, hand: (name: string, text: string) => void = download): Promise<void> {
  const plan = app.getState().plan;
  if (!plan) return;
  let text: string;
  try {
    text = (await codec()).writePlan(plan);
  } catch {
    tellMissing(app, 'What writes a plan file', () => void saveFile(app, hand));
    return;
  }
  hand(fileName(plan), text);
  noteCopy(app);
}

function download(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser needs the address until it has begun to read it.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
