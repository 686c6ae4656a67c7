import { describe, expect, it } from 'vitest';
import { roomWords } from '../../src/ui/room.ts';

describe('the room that a layout has', () => {
  it('counts in the page’s own text size: 1280 px are roomy for 14 px text, and a phone’s for text of 32 px', () => {
    expect(roomWords(1280 / 14, false)).toEqual([]);
    expect(roomWords(1280 / 16, false)).toEqual(['below-roomy']);
    expect(roomWords(1280 / 32, false)).toEqual(['below-roomy', 'below-wide', 'phone', 'finger']);
    expect(roomWords(360 / 16, true)).toEqual(['below-roomy', 'below-wide', 'phone', 'tight', 'finger']);
  });

  it('asks for targets as large as a fingertip wherever a finger points', () => {
    expect(roomWords(100, true)).toEqual(['finger']);
  });
});
