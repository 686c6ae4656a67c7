import type { OfferedRepair } from '../advise/index.ts';
import type { OffersOrder } from '../advise/offers.ts';
import type { Plan } from '../plan/types.ts';
import type { Finding } from '../rules/types.ts';
import { planKey } from './planKey.ts';

type Request = (OffersOrder & { readonly kind: 'offers'; readonly id: number }) | { readonly kind: 'stop'; readonly id: number };
type Reply = { readonly id: number } & ({ readonly offers: readonly OfferedRepair[] } | { readonly error: string });

/** The few things of a Worker that are used here, so that tests can bring their own. */
export interface RepairPort {
  postMessage(request: Request): void;
  terminate(): void;
  onmessage: ((event: { readonly data: Reply }) => void) | null;
  onerror: (() => void) | null;
}

/** A plan is first left alone for so long, ms: whoever edits on wants figures, not repairs of what was a moment ago. */
export const REPAIR_QUIET_MS = 250;

interface Asked {
  readonly id: number;
  readonly order: OffersOrder;
  isWanted: boolean;
  answer(offers: readonly OfferedRepair[]): void;
}

/**
 * Asks a worker what mends a finding: proving a repair works the whole plan out again, which would hold up the page. One
 * question is in the worker at a time; one that is taken back is stopped there or never sent.
 */
export function repairClient(spawn: () => RepairPort) {
  let port: RepairPort | null = null;
  let running: Asked | null = null;
  let queue: Asked[] = [];
  let serial = 0;
  let newest = 0;
  let quiet: ReturnType<typeof setTimeout> | null = null;

  const next = (): void => {
    queue = queue.filter((q) => q.isWanted);
    if (running || quiet !== null) return;
    running = queue.shift() ?? null;
    if (!running) return;
    try {
      if (!port) {
        port = spawn();
        port.onmessage = ({ data }) => {
          if (data.id === running?.id) finish('offers' in data ? data.offers : []);
        };
        port.onerror = () => {
          port?.terminate();
          port = null;
          finish([]);
        };
      }
      port.postMessage({ kind: 'offers', id: running.id, ...running.order });
    } catch {
      finish([]);
    }
  };

  const finish = (offers: readonly OfferedRepair[]): void => {
    const done = running;
    running = null;
    if (done?.isWanted) done.answer(offers);
    next();
  };

  const waitForQuiet = (): void => {
    if (quiet !== null) clearTimeout(quiet);
    quiet = setTimeout(() => {
      quiet = null;
      next();
    }, REPAIR_QUIET_MS);
  };

  return {
    /**
     * @param answer hears the proved repairs, unless the question was taken back; none when they cannot be worked out
     * @returns takes the question back
     */
    ask(plan: Plan, finding: Finding, answer: (offers: readonly OfferedRepair[]) => void): () => void {
      const key = planKey(plan);
      if (key !== newest) waitForQuiet();
      newest = key;
      const asked: Asked = { id: ++serial, order: { planKey: key, plan, rule: finding.rule, subject: finding.subject.id }, isWanted: true, answer };
      queue.push(asked);
      next();
      return () => {
        asked.isWanted = false;
        if (running !== asked) return;
        port?.postMessage({ kind: 'stop', id: asked.id });
        running = null;
        // Others of the same plan are taken back in the same breath: they are not sent only to be stopped.
        queueMicrotask(next);
      };
    },
  };
}
