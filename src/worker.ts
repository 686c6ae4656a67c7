import { inTime, type TimeOrder } from './advise/inTime.ts';
import { type OffersOrder, offers, remember } from './advise/offers.ts';
import { pressedResults } from './advise/pressed.ts';
import { withSecondLook } from './advise/secondLook.ts';
import { type Kept, stagedResults } from './advise/staged.ts';
import { reunited } from './plan/reunite.ts';
import type { Id, Plan } from './plan/types.ts';

type Request =
  | { readonly kind?: undefined; readonly id: number; readonly plan: Plan; readonly planKey?: number }
  | { readonly kind: 'pressed'; readonly id: number; readonly plan: Plan; readonly pressed: readonly Id[] }
  | (OffersOrder & { readonly kind: 'offers'; readonly id: number })
  | (TimeOrder & { readonly id: number })
  | { readonly kind: 'stop'; readonly id: number };

/** Shares are told at most this often, ms. */
const TELL_MS = 120;

/** Orders that are being carried out step by step. */
const going = new Set<number>();

/** The plan that came last. */
let last: Plan | null = null;
/** Plans whose results are asked for: what else is done step by step waits for them. */
let ahead = 0;
/** The plan asked for last; the second look at an older one is left undone. */
let newest = 0;
/** What the last second look found: it stands in first results until the next one. */
let kept: Kept | null = null;

/**
 * Computes plans off the page: `{ id, plan, planKey }` in, `{ id, results }` out, and where `more` stands beside them, `{ id, look }`
 * after that: what a second look adds, unless a newer plan has come; `{ kind: 'pressed', id, plan, pressed }` in,
 * `{ id, moment }` out: readings with those buttons held down; `{ kind: 'offers', id, ... }` in, `{ id, offers }` out: what
 * mends a finding; with another `kind` an order in time, answered by
 * `{ id, share }` on the way and `{ id, result }`; `{ kind: 'stop', id }` ends it unanswered. What fails is `{ id, error }`.
 */
self.addEventListener('message', (event: MessageEvent<Request>) => {
  const request = known(event.data);
  if (request.kind === 'stop') going.delete(request.id);
  else if (request.kind === 'pressed') answer(request.id, () => ({ moment: pressedResults(request.plan, request.pressed) }));
  else if (request.kind === 'offers') void mend(request);
  else if (request.kind) void carryOut(request);
  else void lookTwice(request.id, request.plan, request.planKey);
});

/** The request with what has come before in place of its copy. */
function known(request: Request): Request {
  if (request.kind === 'stop') return request;
  last = last ? reunited(last, request.plan) : request.plan;
  return { ...request, plan: last };
}

async function lookTwice(id: number, plan: Plan, planKey?: number): Promise<void> {
  newest = id;
  let second: (() => object) | null = null;
  ahead++;
  answer(id, () => {
    const staged = stagedResults(plan);
    if (!staged.hasMore) {
      const results = staged.whole();
      if (planKey !== undefined) remember(planKey, results);
      return { results };
    }
    const results = staged.first(kept);
    second = () => {
      const { look, kept: found } = staged.second();
      kept = found;
      if (planKey !== undefined) remember(planKey, withSecondLook(results, look));
      return { look };
    };
    return { results, more: true };
  });
  await heardOthers();
  ahead--;
  if (newest === id) answer(id, () => second?.() ?? null);
}

/** Between two steps other messages are heard: a newer plan, a stop, another order. */
function heardOthers(): Promise<void> {
  return new Promise((resume) => setTimeout(resume, 0));
}

async function carryOut(order: TimeOrder & { readonly id: number }): Promise<void> {
  const { id } = order;
  going.add(id);
  let toldAt = 0;
  const isTime = (): boolean => {
    const now = Date.now();
    if (now - toldAt < TELL_MS) return false;
    toldAt = now;
    return true;
  };
  const steps = inTime(order, (share) => isTime() && self.postMessage({ id, share }));
  while (going.has(id)) {
    const isDone = answer(id, () => {
      const step = steps.next();
      if (step.done) return { result: step.value };
      if (isTime()) self.postMessage({ id, ...step.value });
      return null;
    });
    if (isDone) going.delete(id);
    await heardOthers();
  }
}

/** Proves repairs one after another; a plan that comes meanwhile is worked out first. */
async function mend(order: OffersOrder & { readonly id: number }): Promise<void> {
  const { id } = order;
  going.add(id);
  const steps = offers(order);
  do await heardOthers();
  while (
    going.has(id) &&
    (ahead > 0 ||
      !answer(id, () => {
        const step = steps.next();
        return step.done ? { offers: step.value } : null;
      }))
  );
  going.delete(id);
}

/** Posts what is computed, or why it is not. True when something was posted: nothing more is to come. */
function answer(id: number, compute: () => object | null): boolean {
  try {
    const message = compute();
    if (message) self.postMessage({ id, ...message });
    return message !== null;
  } catch (error) {
    self.postMessage({ id, error: error instanceof Error ? error.message : String(error) });
    return true;
  }
}
