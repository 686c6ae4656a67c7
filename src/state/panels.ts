import { create } from 'zustand';
import type { Id } from '../plan/types.ts';

/** What lies over the drawing: one at a time. `x`, `y` in client pixels. */
export type Panel =
  | { readonly kind: 'menu'; readonly x: number; readonly y: number; readonly of: 'parts' | 'wires' | 'ground' }
  | { readonly kind: 'find' }
  | { readonly kind: 'commands' }
  | { readonly kind: 'join' }
  | { readonly kind: 'replace'; readonly part: Id };

interface Panels {
  readonly open: Panel | null;
  /** Its box is on the screen: the code for it may still be on its way. */
  readonly isShown: boolean;
  /** The last one was left by doing something on the drawing: bare keys are meant for that now. */
  readonly wentOn: boolean;
}

export const usePanels = create<Panels>(() => ({ open: null, isShown: false, wentOn: false }));
export const openPanel = (panel: Panel): void => usePanels.setState({ open: panel, isShown: false, wentOn: false });
/** The box of the open panel has come. */
export const panelShown = (): void => usePanels.setState({ isShown: true });
/** Puts it away; the focus goes back to what opened it. */
export const closePanel = (): void => usePanels.setState({ open: null, isShown: false });
/** Puts it away because something was taken from it; the focus goes to the drawing. */
export const leavePanel = (): void => usePanels.setState({ open: null, isShown: false, wentOn: true });

/** Places of the page that a key or a button leads to. */
export type Place = 'shelf' | 'answers' | 'sheet' | 'drawing';

/** How often each place was asked for: whoever draws it goes there when its number grows. */
export const useAsked = create<Readonly<Record<Place, number>>>(() => ({ shelf: 0, answers: 0, sheet: 0, drawing: 0 }));
export const askFor = (place: Place): void => useAsked.setState((s) => ({ ...s, [place]: s[place] + 1 }));
