import { type SecondLook, withSecondLook } from '../advise/secondLook.ts';
import type { Results } from '../advise/types.ts';
import type { WorstMargin } from '../analysis/time/types.ts';
import type { Plan } from '../plan/types.ts';
import { newWorker } from './workerClient.ts';

/** What is asked: everything of a plan, then its seconds in hand. */
export type OtherRequest = { readonly id: number; readonly plan: Plan } | { readonly kind: 'margins'; readonly id: number; readonly plan: Plan };
export type OtherReply = { readonly id: number } & (
  | { readonly results: Results; readonly more?: boolean }
  | { readonly look: SecondLook }
  | { readonly share: number }
  | { readonly result: readonly WorstMargin[] }
  | { readonly error: string }
);

/** The few things of a Worker that are used here, so that tests can bring their own. */
export interface OtherPort {
  postMessage(request: OtherRequest): void;
  terminate(): void;
  onmessage: ((event: { readonly data: OtherReply }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

export interface OtherHears {
  results(results: Results): void;
  margins(margins: readonly WorstMargin[]): void;
  failed(message: string): void;
}

const WHOLE = 1;
const MARGINS = 2;

/**
 * Works out a plan that is not the open one, in a worker of its own: whole results, second look included, then the
 * seconds in hand.
 * @returns ends it; nothing is heard after that
 */
export function workOutOther(plan: Plan, hears: OtherHears, spawn: () => OtherPort = () => newWorker() as OtherPort): () => void {
  let port: OtherPort | null = null;
  let first: Results | null = null;
  const end = (): void => {
    port?.terminate();
    port = null;
  };
  const fail = (message: string): void => {
    end();
    hears.failed(message);
  };
  const whole = (results: Results): void => {
    hears.results(results);
    port?.postMessage({ kind: 'margins', id: MARGINS, plan });
  };
  try {
    port = spawn();
    port.onmessage = ({ data }) => {
      if (!port) return;
      if ('error' in data) fail(data.error);
      else if ('results' in data) {
        if (data.more) first = data.results;
        else whole(data.results);
      } else if ('look' in data) {
        if (first) whole(withSecondLook(first, data.look));
      } else if ('result' in data) {
        end();
        hears.margins(data.result);
      }
    };
    port.onerror = ({ message }) => fail(message || 'the calculation stopped');
    port.postMessage({ id: WHOLE, plan });
  } catch (error) {
    fail(error instanceof Error ? error.message : String(error));
  }
  return end;
}
