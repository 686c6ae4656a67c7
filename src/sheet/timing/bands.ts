import type { ComputerSpan, KeyCycle } from '../../analysis/time/types.ts';
import type { Ink } from '../../drawing/types.ts';
import type { Id } from '../../plan/types.ts';
import { STATE_WORDS } from '../words.ts';
import { LEFT, line, type StripPiece, short, text, wordWidth } from './pieces.ts';
import type { TimeScale } from './scale.ts';
import { COMPUTER_WORDS } from './words.ts';

export const KEY_H = 18;
export const ROW_H = 17;

/** The key positions along the top. */
export function keyBand(out: StripPiece[], cycle: KeyCycle, scale: TimeScale, y: number): void {
  cycle.key.forEach((span, i) => {
    const [a, b] = [scale.x(span.fromS), scale.x(span.toS)];
    if (b - a < 0.5) return;
    out.push({ t: 'rect', x: a, y, w: b - a, h: KEY_H, fill: i % 2 === 0 ? 'zone-a' : 'zone-b', ink: 'faint', lw: 0.75 });
    const word = STATE_WORDS[span.state];
    if (wordWidth(word, true) + 6 <= b - a) out.push(text((a + b) / 2, y + KEY_H - 5, word, 'ink', 'middle', true));
  });
}

/** What one computer is doing. */
export function computerRow(out: StripPiece[], cycle: KeyCycle, part: Id, scale: TimeScale, y: number, x1: number, nameOf: (part: Id) => string): void {
  out.push(line([LEFT, y + ROW_H / 2, x1, y + ROW_H / 2], 'faint', 0.75));
  out.push(text(x1 + 7, y + ROW_H - 5, short(nameOf(part)), 'ink', 'start'));
  for (const span of cycle.computers) if (span.part === part) bar(out, span, scale, y);
}

/** A stretch of one state: solid while up, a strong edge while it boots or stops, crossed out where it fell over. */
function bar(out: StripPiece[], span: ComputerSpan, scale: TimeScale, y: number): void {
  if (span.state === 'off') return;
  const x = scale.x(span.fromS);
  const w = Math.max(span.state === 'browned out' ? 3 : 0.75, scale.x(span.toS) - x);
  const word = COMPUTER_WORDS[span.state];
  const fits = wordWidth(word, true) + 6 <= w;
  const put = (fill: Ink, ink: Ink, lw: number): void => {
    out.push({ t: 'rect', x, y, w, h: ROW_H, r: Math.min(2, w / 2), fill, ink, lw });
  };
  switch (span.state) {
    case 'up':
      put('accent', 'accent', 1);
      break;
    case 'browned out':
      put('hazard', 'hazard', 1);
      for (let at = x + 4; at < x + w - 6 && !fits; at += 6) out.push(line([at, y + 2, at + 4, y + ROW_H - 2], 'paper', 1));
      break;
    case 'booting':
    case 'stopping':
      put('paper', 'ink', 1.5);
      for (let at = x + 5; at < x + w - 2 && !fits; at += 7) out.push(line([at, y + ROW_H - 2, Math.min(x + w - 2, at + 3), y + ROW_H - 5], 'soft', 0.75));
      break;
    default:
      put('paper', 'faint', 0.75);
  }
  if (fits) {
    const ink: Ink = span.state === 'up' || span.state === 'browned out' ? 'paper' : span.state === 'halted' ? 'soft' : 'ink';
    out.push(text(x + w / 2, y + ROW_H - 5, word, ink, 'middle', true));
  }
}
