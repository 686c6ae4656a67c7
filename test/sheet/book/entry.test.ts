import { describe, expect, it } from 'vitest';
import { ruleById } from '../../../src/rules/index.ts';
import { bookEntry, bookHtml } from '../../../src/sheet/book/index.ts';

const entry = (id: string) => bookEntry(ruleById.get(id)!);
/** The words of a drawing. */
const words = (svg: string): string => [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map((m) => m[1]).join(' · ');

describe('a page of the rule book', () => {
  it('writes at the part what is otherwise in the other drawing, and at a wire the number that the text names', async () => {
    const { flagged, clean } = await entry('wire-fuse-too-big');
    expect(flagged!.what).toContain('W2');
    expect(words(flagged!.svg)).toContain('W2 0.5 mm² 1.00 m');
    expect(words(flagged!.svg)).toContain('Rating: 10 A');
    expect(words(clean!.svg)).toContain('Rating: 3 A');
    expect(words(clean!.svg)).not.toContain('W2');
  });

  it('shows of the computer the pins that are wired, by what they are for', async () => {
    const { flagged, clean } = await entry('five-volt-drop');
    expect(words(flagged!.svg)).toContain('Pin 2, 5 V');
    expect(words(flagged!.svg)).not.toContain('Pin 4');
    expect(words(clean!.svg)).toContain('Pin 4, 5 V');
    expect(words(clean!.svg)).not.toContain('GPIO');
  });

  it('brings in what mends it: a part that stands in the clean plan alone', async () => {
    const { flagged, clean } = await entry('audio-ground-ring');
    expect(words(flagged!.svg)).not.toContain('isolator');
    expect(words(clean!.svg)).toContain('Audio isolator');
  });

  it('leaves out what hangs together with nothing else in the drawing', async () => {
    const { flagged, clean } = await entry('lamp-never-sleeps');
    expect(words(flagged!.svg)).toContain('Constant');
    expect(words(flagged!.svg)).not.toContain('Ignition');
    expect(words(clean!.svg)).toContain('Ignition');
    expect(words(clean!.svg)).not.toContain('Constant');
  });

  it('is printed with both drawings, the text of the finding and where practitioners disagree', async () => {
    const page = bookHtml([await entry('fuse-far-from-tap')], 'A4', '1 June 2025');
    expect(page.match(/<svg/g)).toHaveLength(2);
    expect(page).toContain('0.80 m');
    expect(page).toContain('Practitioners disagree');
  });
});
