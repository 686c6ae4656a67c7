import { readFileSync } from 'node:fs';
import { computeResults } from './advise/index.ts';
import { timeBaseOf } from './advise/inTime.ts';
import type { Results } from './advise/types.ts';
import { allEvents, defaultScenario, keyCycle, worstMargins } from './analysis/time/index.ts';
import { planJsonSchema, readPlan } from './codec/index.ts';
import type { Plan } from './plan/types.ts';
import { countsOf, exitCode } from './sheet/report/counts.ts';
import { reportJson } from './sheet/report/json.ts';
import { reportText } from './sheet/report/text.ts';
import { sheetHtml } from './sheet/sheetHtml.ts';

const OPTIONS = ['--json', '--sheet', '--letter', '--strict', '--help', '-h'];
const USAGE = `usage: npm run --silent report -- FILE [--json | --sheet [--letter]] [--strict]

  FILE      a plan file; - reads standard input
  --json    everything computed, as JSON
  --sheet   the wiring sheet, as HTML to print on A4
  --letter  the wiring sheet on Letter
  --strict  also end with 1 where a rule that can find a hazard could not tell

ends with 0, with 1 when a hazard is found, with 2 when FILE cannot be read
`;

/** What a command answers: its output, what goes to the error stream, and how it ends. */
export interface Answer {
  readonly out: string;
  readonly err: string;
  readonly code: 0 | 1 | 2;
}

/** The headless report. @param args command line without program and script. */
export function report(args: readonly string[]): Answer {
  const unknown = args.find((a) => a.startsWith('-') && a !== '-' && !OPTIONS.includes(a));
  if (args.includes('--help') || args.includes('-h')) return { out: USAGE, err: '', code: 0 };
  const files = args.filter((a) => a === '-' || !a.startsWith('-'));
  const [file] = files;
  if (unknown !== undefined) return failed(`unknown option ${unknown}\n${USAGE}`);
  if (file === undefined || files.length > 1) return failed(USAGE);
  let text: string;
  try {
    text = readFileSync(file === '-' ? 0 : file, 'utf8');
  } catch (error) {
    return failed(`${file} cannot be read: ${whyUnread(error)}\n`);
  }
  const read = readPlan(text);
  if (!read.ok) {
    const lines = read.problems.map((p) => `  ${p.where === '' ? '' : `${p.where}: `}${p.what}\n`);
    return failed(`${file} is not a plan that can be read:\n${lines.join('')}`);
  }
  const results = computeResults(read.plan);
  return {
    out: output(read.plan, results, args),
    err: read.notes.map((note) => `${note}\n`).join(''),
    code: exitCode(countsOf(results), args.includes('--strict')),
  };
}

function output(plan: Plan, results: Results, args: readonly string[]): string {
  const json = args.includes('--json');
  if (!json && !args.includes('--sheet')) return reportText(results);
  // Whoever asks for neither does not wait for calculations in time.
  const base = timeBaseOf(plan);
  if (json) return `${JSON.stringify(reportJson(results, allEvents(base)), null, 1)}\n`;
  return sheetHtml(results, {
    paper: args.includes('--letter') ? 'Letter' : 'A4',
    date: new Date().toISOString().slice(0, 10),
    time: { cycle: keyCycle(base, defaultScenario(plan)), margins: worstMargins(base), events: allEvents(base) },
  });
}

/** JSON Schema of a plan file. */
export function schema(): Answer {
  return { out: `${JSON.stringify(planJsonSchema(), null, 2)}\n`, err: '', code: 0 };
}

/** The system's own words for what a person meets most are not theirs. */
const UNREAD: Readonly<Record<string, string>> = { ENOENT: 'there is no such file', EISDIR: 'it is a folder', EACCES: 'this user may not read it' };

function whyUnread(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return UNREAD[code] ?? (error instanceof Error ? error.message : String(error));
}

function failed(err: string): Answer {
  return { out: '', err, code: 2 };
}
