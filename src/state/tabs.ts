import { familyOf } from '../plan/alternatives.ts';
import type { App } from './store.ts';

/** What pages of this origin tell each other. */
export type TabMessage =
  | { readonly type: 'opened'; readonly plan: string; readonly tab: string }
  | { readonly type: 'here-already'; readonly plan: string; readonly to: string }
  /** A wiring of this family was kept. */
  | { readonly type: 'kept'; readonly plan: string; readonly family: string };

/** The few things of a BroadcastChannel that are used here. */
export interface TabChannel {
  postMessage(message: TabMessage): void;
  onmessage: ((event: { readonly data: TabMessage }) => void) | null;
  close(): void;
}

export const TWICE_TEXT =
  'This plan is already open in another tab. Nothing drawn in one is written over what is drawn in the other: you would be asked. It is simplest to close one of the two before you go on.';

/**
 * Tells the person when the plan they open is open elsewhere; the later page is told, the earlier one works on.
 * `onWiringKept` hears that another tab has kept another wiring of the open plan.
 */
export function attachTabs(app: App, channel: TabChannel, tab: string, onWiringKept: () => void): () => void {
  const announce = (id: string | undefined): void => {
    if (id !== undefined) channel.postMessage({ type: 'opened', plan: id, tab });
  };
  channel.onmessage = ({ data }) => {
    const { plan } = app.getState();
    const open = plan?.id;
    if (data.type === 'kept') {
      if (plan && data.plan !== open && data.family === familyOf(plan)) onWiringKept();
      return;
    }
    if (open === undefined || data.plan !== open) return;
    if (data.type === 'opened' && data.tab !== tab) channel.postMessage({ type: 'here-already', plan: open, to: data.tab });
    if (data.type === 'here-already' && data.to === tab) app.getState().setNotice({ kind: 'problem', text: TWICE_TEXT });
  };
  announce(app.getState().plan?.id);
  const unsubscribe = app.subscribe((state, before) => {
    if (state.plan?.id !== before.plan?.id) announce(state.plan?.id);
  });
  return () => {
    unsubscribe();
    channel.close();
  };
}
