import { describe, expect, it } from 'vitest';
import { isEnter, takeAhead, withKey } from '../../src/canvas/typedAhead.ts';

const typed = (...keys: string[]): string[] => keys.reduce<string[]>((all, key) => withKey(all, key), []);

describe('what is typed before the box is there', () => {
  it('is text, and Enter between its pieces', () => {
    expect(typed('F', '1', ' ', '>', 'Enter', 'W', 'Enter')).toEqual(['F1 >', '\n', 'W', '\n']);
    expect(typed('F', 'Enter').map(isEnter)).toEqual([false, true]);
    expect(typed('Enter', 'Enter')).toEqual(['\n', '\n']);
  });

  it('is mended by Backspace, within its piece', () => {
    expect(typed('a', 'b', 'Backspace', 'c')).toEqual(['ac']);
    expect(typed('a', 'Backspace', 'Backspace')).toEqual([]);
    expect(typed('a', 'Enter', 'Backspace')).toEqual(['a', '\n']);
  });

  it('leaves out keys that write nothing', () => {
    expect(typed('Shift', 'A', 'Delete', 'ArrowLeft', 'F5', 'Tab')).toEqual(['A']);
  });

  it('is empty where nothing was typed', () => {
    expect(takeAhead()).toEqual([]);
  });
});
