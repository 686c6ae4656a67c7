import { partKinds, partSets } from '../parts/index.ts';
import type { Group } from '../parts/types.ts';

/** One thing that can be taken from the shelf. */
export interface ShelfItem {
  readonly key: string;
  readonly type: 'part' | 'set';
  readonly id: string;
  readonly variant?: string;
  readonly title: string;
  readonly about: string;
  readonly words: readonly string[];
  readonly group: Group | 'Sets';
  /** Ready-made settings of the same part, shown folded under it. */
  readonly variants: readonly ShelfItem[];
}

export const GROUPS: readonly (Group | 'Sets')[] = ['Sets', 'Feeds', 'Protect', 'Switch', 'Convert', 'Sense', 'Compute', 'Sound and picture', 'Join'];

/** Sets in the order a build takes them; any other follows by title. */
const SET_ORDER = ['fused-feed-30', 'fused-feed-15', 'supply', 'hold-relay', 'key-sensor', 'display-fused', 'button-filter', 'sound-isolated'];
const byOrder = (order: readonly string[]) => (a: { readonly id: string; readonly title: string }, b: { readonly id: string; readonly title: string }) => {
  const rank = (id: string) => (order.includes(id) ? order.indexOf(id) : order.length);
  return rank(a.id) - rank(b.id) || a.title.localeCompare(b.title);
};
/** Feeds by how often they are wanted. */
const FEED_ORDER = ['feed-30', 'feed-15', 'feed-75', 'feed-75r', 'feed-58', 'feed-reverse', 'chassis-ground', 'battery'];

/** Everything on the shelf; sets first. */
export function shelfItems(): readonly ShelfItem[] {
  const sets = [...partSets.values()].sort(byOrder(SET_ORDER)).map(
    (set): ShelfItem => ({
      key: `set:${set.id}`,
      type: 'set',
      id: set.id,
      title: set.title,
      about: set.about,
      words: set.words ?? [],
      group: 'Sets',
      variants: [],
    }),
  );
  const parts = [...partKinds.values()].map((kind): ShelfItem => {
    const base = { type: 'part', id: kind.kind, about: kind.about, group: kind.group, variants: [] } as const;
    const variants = (kind.variants ?? []).map(
      (v): ShelfItem => ({ ...base, key: `part:${kind.kind}:${v.id}`, variant: v.id, title: v.title, words: [kind.title] }),
    );
    return { ...base, key: `part:${kind.kind}`, title: kind.title, words: kind.words ?? [], variants: variants.length > 1 ? variants : [] };
  });
  return [...sets, ...parts.sort(byOrder(FEED_ORDER))];
}

type InHand = Pick<ShelfItem, 'type' | 'id' | 'variant'>;

/** Is this what was taken from the shelf? */
export function isPlacing(placing: InHand, item: ShelfItem): boolean {
  return placing.type === item.type && placing.id === item.id && placing.variant === item.variant;
}

/** What was taken from the shelf, as it stands there. */
export function itemInHand(items: readonly ShelfItem[], placing: InHand): ShelfItem | undefined {
  return items.flatMap((i) => [i, ...i.variants]).find((i) => isPlacing(placing, i));
}

/**
 * Items that fit what was typed, best first: title begins, a word of the title begins, a search word or the group begins,
 * then anywhere in title, words or the sentence about it. Every typed word must fit.
 */
export function findItems(items: readonly ShelfItem[], typed: string): readonly ShelfItem[] {
  const wanted = typed
    .trim()
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== '');
  if (wanted.length === 0) return items;
  return (
    items
      // A ready-made one that is called like its kind is that kind.
      .flatMap((item) => [item, ...item.variants.filter((v) => v.title !== item.title)])
      .map((item) => ({ item, score: wanted.map((w) => scoreOf(item, w)).reduce((a, b) => (a === 0 || b === 0 ? 0 : a + b)) }))
      .filter((s) => s.score > 0)
      .sort((a, b) => b.score - a.score)
      .map((s) => s.item)
  );
}

function scoreOf(item: ShelfItem, wanted: string): number {
  const title = item.title.toLowerCase();
  if (title.startsWith(wanted)) return 5;
  if (title.split(/[\s,-]+/).some((w) => w.startsWith(wanted))) return 4;
  // The group tells a set from the part of the same name.
  if (item.words.some((w) => w.toLowerCase().startsWith(wanted)) || item.group.toLowerCase().startsWith(wanted)) return 3;
  if (title.includes(wanted) || item.words.some((w) => w.toLowerCase().includes(wanted))) return 2;
  return item.about.toLowerCase().includes(wanted) ? 1 : 0;
}
