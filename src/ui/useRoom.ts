import { useSyncExternalStore } from 'react';
import { onRoom, room } from './room.ts';

/** The bench's layout: shelf and answers beside the plan, answers beside it, or the plan alone. Follows window and text size. */
export function useRoom(): 'wide' | 'medium' | 'phone' {
  const words = useSyncExternalStore(onRoom, room);
  return words.includes('phone') ? 'phone' : words.includes('below-wide') ? 'medium' : 'wide';
}
