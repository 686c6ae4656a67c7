import type { OfferedRepair } from '../advise/index.ts';
import type { OffersOrder } from '../advise/offers.ts';
import type { Plan } from '../plan/types.ts';
import type { Finding } from '../rules/types.ts';
import { newWorker } from './workerClient.ts';

type Reply = { readonly id: number } & ({ readonly offers: readonly OfferedRepair[] } | { readonly error: string });

/** The few things of a Worker that are used here, so that tests can bring their own. */
export interface RepairPort {
  postMessage(request: OffersOrder & { readonly kind: 'offers'; readonly id: number }): void;
  terminate(): void;
  onmessage: ((event: { readonly data: Reply }) => void) | null;
  onerror: (() => void) | null;
}

interface Asked {
  readonly id: number;
  readonly order: OffersOrder;
  isWanted(): boolean;
  answer(offers: readonly OfferedRepair[]): void;
}

/**
 * Asks a worker of its own what mends a finding: proving a repair works the whole plan out again, which would hold up the
 * page. One question is in the worker at a time; those that nobody waits for any more are dropped.
 */
export function repairClient(spawn: () => RepairPort = () => newWorker() as RepairPort) {
  const keys = new WeakMap<Plan, number>();
  let port: RepairPort | null = null;
  let running: Asked | null = null;
  let queue: Asked[] = [];
  let serial = 0;
  let planSerial = 0;

  const next = (): void => {
    queue = queue.filter((q) => q.isWanted());
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
    if (done?.isWanted()) done.answer(offers);
    next();
  };

  return {
    /**
     * @param answer hears the proved repairs, unless the question was taken back; none when they cannot be worked out
     * @returns takes the question back
     */
    ask(plan: Plan, finding: Finding, answer: (offers: readonly OfferedRepair[]) => void): () => void {
      let wanted = true;
      const planKey = keys.get(plan) ?? ++planSerial;
      keys.set(plan, planKey);
      serial += 1;
      queue.push({ id: serial, order: { planKey, plan, rule: finding.rule, subject: finding.subject.id }, isWanted: () => wanted, answer });
      if (!running) next();
      return () => {
        wanted = false;
      };
    },
  };
}
