import { describe, expect, it } from 'vitest';
import { headline, lookedText } from '../../src/advise/headline.ts';
import type { Card } from '../../src/advise/types.ts';
import type { Level } from '../../src/rules/types.ts';
import { reportText } from '../../src/sheet/report/text.ts';
import { results } from '../sheet/fixture.ts';

const card = (level: Level, ...subjects: string[]): Card => ({
  key: subjects.join(),
  rule: 'r',
  code: 'X',
  level,
  title: 'T',
  folded: [],
  findings: subjects.map((id) => ({
    rule: 'r',
    code: 'X',
    level,
    subject: { kind: 'part', id },
    related: [],
    what: 'What.',
    todo: 'Do.',
    figures: [],
    state: null,
    band: null,
  })),
});
const of = (...cards: Card[]) => headline({ cards, aside: [] });

describe('the headline', () => {
  it('says what was found, worst first', () => {
    expect(of(card('hazard', 'a'), card('fault', 'a'), card('fault', 'b'), card('advice', 'c'))).toBe('1 hazard, 2 faults');
    expect(of(card('hazard', 'a'), card('hazard', 'b'))).toBe('2 hazards');
    expect(of(card('fault', 'a'))).toBe('No hazard found, 1 fault');
  });

  it('counts cards, and the places where one card speaks of several', () => {
    expect(of(card('hazard', 'a', 'b'), card('hazard', 'c'))).toBe('2 hazards in 3 places');
    expect(of(card('hazard', 'a'), card('fault', 'a', 'b'))).toBe('1 hazard, 1 fault in 2 places');
    // Two causes at one part are two hazards, in no more than two places.
    expect(of(card('hazard', 'a'), card('hazard', 'a'))).toBe('2 hazards');
  });

  it('never says more than that nothing was found, and a hazard set aside is still said', () => {
    expect(of()).toBe('No hazard, no fault found');
    expect(of(card('advice', 'a'))).toBe('No hazard, no fault found');
    const aside = [{ card: card('hazard', 'a'), reason: 'r' }];
    expect(headline({ cards: [], aside })).toBe('No other hazard found, 1 hazard set aside');
    expect(headline({ cards: [card('hazard', 'b'), card('fault', 'c')], aside })).toBe('1 hazard, 1 fault, 1 hazard set aside');
  });

  it('counts a fact once, however many rules miss it', () => {
    const missing = { rule: 'x', code: 'A3', level: 'hazard', subject: { kind: 'part', id: 'p2' }, needs: 'the fuse' } as const;
    expect(lookedText({ looked: 61, cannotTell: [missing, { ...missing, rule: 'y' }], aside: [] })).toBe('61 looked at · 1 needs a fact');
    expect(lookedText({ looked: 3, cannotTell: [], aside: [] })).toBe('3 looked at');
  });

  it('is the same line in the terminal', () => {
    const report = { ...results.report, cards: [card('hazard', 'p3', 'p4')], aside: [] };
    expect(reportText({ ...results, report }).split('\n')[1]).toBe('1 hazard in 2 places · 61 looked at · 1 needs a fact');
  });
});
