import { describe, expect, it } from 'vitest';
import { roomWords } from '../../src/ui/room.ts';

describe('the room that a layout has', () => {
  it('counts in the page’s own text size: 1280 px are roomy for 14 px text, and a phone’s for text of 32 px', () => {
    expect(roomWords(1280 / 14, false)).toEqual([]);
    expect(roomWords(1280 / 16, false)).toEqual(['below-roomy']);
    expect(roomWords(1280 / 32, false)).toEqual(['below-roomy', 'below-wide', 'phone', 'finger']);
    expect(roomWords(360 / 16, true)).toEqual(['below-roomy', 'below-wide', 'phone', 'tight', 'finger']);
    expect(roomWords(360 / 32, true)).toEqual(['below-roomy', 'below-wide', 'phone', 'tight', 'scant', 'finger']);
  });

  it('is that of a phone laid on its side where there is little height, but not when a keyboard has come up or on a broad screen', () => {
    expect(roomWords(844 / 16, true, 390 / 16)).toEqual(['below-roomy', 'below-wide', 'phone', 'low', 'finger']);
    expect(roomWords(390 / 16, true, 420 / 16)).toEqual(['below-roomy', 'below-wide', 'phone', 'finger']);
    expect(roomWords(1440 / 16, false, 420 / 16)).toEqual([]);
    expect(roomWords(844 / 16, true, 600 / 16)).toEqual(['below-roomy', 'below-wide', 'finger']);
  });

  it('asks for targets as large as a fingertip wherever a finger points', () => {
    expect(roomWords(100, true)).toEqual(['finger']);
  });
});
