import { describe, expect, it } from 'vitest';
import { headlineOf } from '../../src/ledger/Findings.tsx';

describe('the headline', () => {
  it('says what was found, worst first', () => {
    expect(headlineOf(['hazard', 'fault', 'fault', 'advice'])).toBe('1 hazard, 2 faults');
    expect(headlineOf(['hazard', 'hazard'])).toBe('2 hazards');
    expect(headlineOf(['fault'])).toBe('No hazard found, 1 fault');
  });

  it('never says more than that nothing was found', () => {
    expect(headlineOf([])).toBe('No hazard, no fault found');
    expect(headlineOf(['advice'])).toBe('No hazard, no fault found');
  });
});
