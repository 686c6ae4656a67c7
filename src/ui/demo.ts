import { openFile } from '../state/page.ts';
import { app } from '../state/store.ts';

const DEMO_FILE = './plans/mobile-library-van.plan.json';

/** Fetches the demo and opens it like any other file; a failure becomes a notice with what to do. */
export async function openDemo(): Promise<void> {
  try {
    const answer = await fetch(DEMO_FILE);
    if (!answer.ok) throw new Error(`the server answered ${answer.status}`);
    const text = await answer.text();
    const opened = await openFile({ name: 'The demo', size: text.length, comesWithPage: true, text: () => Promise.resolve(text) });
    if (opened) app.getState().setNotice({ kind: 'info', text: 'This is the demo. Turn the key, or choose a wire.' });
  } catch (error) {
    app.getState().setNotice({
      kind: 'problem',
      text: `The demo could not be fetched (${error instanceof Error ? error.message : String(error)}). Check the connection and try again.`,
    });
  }
}
