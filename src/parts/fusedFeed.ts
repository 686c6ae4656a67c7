import type { SetDef } from './types.ts';

/** A tapped feed with its fuse right behind it; the fuse's rating is chosen from what hangs on it. */
export function fusedFeed(line: '30' | '15', title: string, about: string): SetDef {
  return {
    id: `fused-feed-${line}`,
    title,
    about,
    words: ['tap', 'fuse', 'supply', line],
    parts: [
      { key: 'feed', kind: `feed-${line}`, x: 0, y: 0 },
      { key: 'fuse', kind: 'blade-fuse', x: 160, y: 10, settings24: { voltClass: '58' } },
    ],
    // 0.1 m: the fuse belongs within 0.15 m of the tap (common practice, no source).
    wires: [{ from: ['feed', 'out'], to: ['fuse', '1'], lengthM: 0.1 }],
  };
}
