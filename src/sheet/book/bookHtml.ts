import type { Limit, RuleDef } from '../../rules/types.ts';
import { type Html, h, list, raw } from '../markup.ts';
import { type Paper, printCss } from '../style.ts';
import type { BookEntry } from './entry.ts';

const LEVEL_WORDS = { hazard: 'Hazard', fault: 'Fault', advice: 'Advice' } as const;

/** Groups of the catalogue by the first letter of a code, in words. */
export const GROUPS: Readonly<Record<string, string>> = {
  A: 'Source and protection',
  B: 'Wires and joints',
  C: 'Converters, capacitors, 5 V',
  D: 'Sensing 12 V signals',
  E: 'Pins',
  F: 'Key-off and hold-up',
  G: 'Parked',
  H: 'Grounds and noise',
  I: 'Links and cables',
  J: 'Contacts, coils, lamps',
  K: 'Heat',
  L: 'People, law and habit',
};

/** The rule book as a document of its own, to be printed. */
export function bookHtml(entries: readonly BookEntry[], paper: Paper, date: string): string {
  const groups = Object.entries(GROUPS).flatMap(([letter, title]) => {
    const mine = entries.filter((e) => e.rule.code.startsWith(letter));
    return mine.length === 0 ? [] : [h`<section><h2>${title}</h2>${mine.map(entryHtml)}</section>\n`];
  });
  return h`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>Rule book</title>
<style>${raw(printCss(paper, `Rule book, ${date}`))}${raw(CSS)}</style>
</head>
<body>
<header><h1>Rule book</h1>
<p>What is looked at in a plan, why, and where it comes from. The tool advises: the vehicle maker’s instructions, local rules and qualified people come first.</p></header>
${groups}</body>
</html>
`.html;
}

const CSS = `
article { border-top: 0.3mm solid #000; padding: 2mm 0 3mm; }
article h3 { font-size: 11pt; margin: 0 0 1mm; }
.pair { margin: 0 0 2mm; break-inside: avoid; }
.pair > p { margin-bottom: 2mm; }
.pair figure { display: flex; flex-wrap: wrap; align-items: center; gap: 1mm 4mm; margin: 0 0.4mm 1.5mm 0; border: 0.2mm solid #777; padding: 2mm; break-inside: avoid; }
.pair svg { flex: none; max-width: 100%; }
.pair figcaption { flex: 1 1 52mm; }
figcaption { font-size: 8.25pt; }
`;

function entryHtml(entry: BookEntry): Html {
  const { rule } = entry;
  return h`<article id="${rule.id}">
<div class="pair"><h3>${rule.title} <span class="level ${rule.level}">${LEVEL_WORDS[rule.level]}</span></h3>
<p>${rule.why}</p>
${entry.flagged && entry.clean ? h`<figure>${raw(entry.flagged.svg)}<figcaption><strong>Flagged.</strong> ${entry.flagged.what} ${entry.flagged.todo}</figcaption></figure><figure>${raw(entry.clean.svg)}<figcaption><strong>In order.</strong> ${entry.clean.what}</figcaption></figure>` : raw('')}</div>
${list(linesOf(entry).map(([word, text]) => h`<strong>${word}:</strong> ${text}`))}
</article>
`;
}

/** What else the book says of a rule: word and text. */
export function linesOf({ rule, repairs }: BookEntry): (readonly [string, string])[] {
  return [
    ...(repairs.length > 0 ? [['The tool offers', `${repairs.join('; ')}.`] as const] : []),
    ...(rule.limits ?? []).map((limit) => ['A limit that a plan may change', limitText(limit)] as const),
    ...(rule.disputed ? [['Practitioners disagree', rule.disputed] as const] : []),
    ['Where it comes from', `${rule.source.text} (${rule.source.grade})`],
  ];
}

/** "Fuse from the tap, usual limit: 0.15 m (trade practice)" */
export function limitText({ title, value, unit, basis }: Limit): string {
  return `${title}: ${unit === 'share' ? `${Number((100 * value).toPrecision(4))} %` : `${Number(value.toPrecision(4))} ${unit}`.trim()} (${basis})`;
}

/** Does a rule speak of what a person searches for? Every word must stand somewhere in it. */
export function matches(rule: RuleDef, search: string): boolean {
  const text = `${rule.title} ${rule.why} ${rule.source.text} ${rule.disputed ?? ''} ${GROUPS[rule.code[0]!] ?? ''}`.toLowerCase();
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
