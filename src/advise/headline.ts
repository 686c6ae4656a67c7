import { STAGES } from '../plan/stages.ts';
import type { Stage } from '../plan/types.ts';
import type { Level } from '../rules/types.ts';
import type { Card, FindingsReport } from './types.ts';

type Counted = Pick<FindingsReport, 'cards' | 'aside'>;

/**
 * What was found, in one line, the same on screen, on paper and in the terminal: cards are counted, and where one card
 * speaks of several subjects, those too. "2 hazards in 3 places, 1 fault"; never a verdict of "safe".
 */
export function headline(report: Counted): string {
  const hazards = counted(report.cards, 'hazard');
  const faults = counted(report.cards, 'fault');
  // Setting a hazard aside does not make it go away.
  const laid = report.aside.filter((a) => a.card.level === 'hazard').length;
  const aside = laid === 0 ? '' : `${plural(laid, 'hazard')} set aside`;
  if (hazards !== '') return [hazards, faults, aside].filter((t) => t !== '').join(', ');
  if (aside !== '') return [`No other hazard found, ${aside}`, faults].filter((t) => t !== '').join(', ');
  return faults === '' ? 'No hazard, no fault found' : `No hazard found, ${faults}`;
}

/** How much was looked at and what it still wants to know: "61 looked at · 4 need a fact · 1 set aside". */
export function lookedText(report: Pick<FindingsReport, 'looked' | 'cannotTell' | 'aside'>): string {
  const facts = missingFacts(report);
  return [
    `${report.looked} looked at`,
    ...(facts > 0 ? [`${facts} ${facts === 1 ? 'needs' : 'need'} a fact`] : []),
    ...(report.aside.length > 0 ? [`${report.aside.length} set aside`] : []),
  ].join(' · ');
}

/** The same fact missed by several rules is one question. */
export function missingFacts(report: Pick<FindingsReport, 'cannotTell'>): number {
  return new Set(report.cannotTell.map((c) => `${c.subject.kind}:${c.subject.id}:${c.needs}`)).size;
}

/** What waits for a later stage of the job, counted by stage, the nearest first. */
export function waitingByStage(report: Pick<FindingsReport, 'waiting'>): readonly { readonly stage: Stage; readonly cards: number }[] {
  return STAGES.flatMap((stage) => {
    const cards = report.waiting.filter((c) => c.stage === stage).length;
    return cards === 0 ? [] : [{ stage, cards }];
  });
}

/** "2 hazards", "2 hazards in 3 places"; '' for none. */
function counted(cards: readonly Card[], level: Level): string {
  const mine = cards.filter((c) => c.level === level);
  if (mine.length === 0) return '';
  const places = new Set(mine.flatMap((c) => c.findings.map((f) => `${f.subject.kind}:${f.subject.id}`))).size;
  return `${plural(mine.length, level)}${places > mine.length ? ` in ${places} places` : ''}`;
}

const plural = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;
