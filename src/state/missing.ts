import type { App } from './store.ts';

let tries = 0;

/**
 * Code that is fetched when it is first wanted. Browsers keep the failure to fetch a module for as long as the page stands:
 * under another address it is fetched once more.
 */
export async function fetchedCode<T>(load: () => Promise<T>, from: (address: string) => Promise<T> = fromAddress): Promise<T> {
  try {
    return await load();
  } catch (error) {
    const address = /https?:\S+\.js/.exec(error instanceof Error ? error.message : '')?.[0];
    if (address === undefined) throw error;
    tries += 1;
    return from(`${address}?again=${tries}`);
  }
}

const fromAddress = <T>(address: string): Promise<T> => import(/* @vite-ignore */ address) as Promise<T>;

/** Why a part of the page is not there, in plain words. @param what first words of the sentence */
export function missingText(what: string): string {
  return `${what} could not be fetched. Perhaps there is no network just now, or a newer edition of this page has been put up meanwhile. Your plan is as it was.`;
}

/** Tells that something could not be fetched, with another try. */
export function tellMissing(app: App, what: string, again: () => void): void {
  app.getState().setNotice({ kind: 'problem', text: missingText(what), action: { label: 'Try again', run: again } });
}
