import type { SecondLook } from '../../src/advise/secondLook.ts';
import type { Results } from '../../src/advise/types.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';
import { asKept, entryOf, type KeptPlan, mayReplace, type PlanStorage } from '../../src/state/storage.ts';
import type { App } from '../../src/state/store.ts';
import type { TabChannel, TabMessage } from '../../src/state/tabs.ts';
import type { WorkerPort, WorkerRequest } from '../../src/state/workerClient.ts';

/** A worker that answers only when told to. */
export class FakeWorker implements WorkerPort {
  onmessage: WorkerPort['onmessage'] = null;
  onerror: WorkerPort['onerror'] = null;
  readonly asked: WorkerRequest[] = [];
  ended = false;
  postMessage(request: WorkerRequest): void {
    this.asked.push(request);
  }
  terminate(): void {
    this.ended = true;
  }
  get last(): WorkerRequest {
    const request = this.asked.at(-1);
    if (!request) throw new Error('nothing was asked');
    return request;
  }
  answer(request: WorkerRequest = this.last): void {
    this.onmessage?.({ data: { id: request.id, results: resultsFor(request.plan) } });
  }
  /** First results, with a second look to come. */
  answerFirst(request: WorkerRequest = this.last): void {
    this.onmessage?.({ data: { id: request.id, results: resultsFor(request.plan), more: true } });
  }
  answerSecond(request: WorkerRequest = this.last): void {
    this.onmessage?.({ data: { id: request.id, look: SECOND } });
  }
}

/** A second look that can be told from none. */
export const SECOND = { figures: { arrivals: [], dependsOnHistory: ['relay:contact'] }, report: { looked: 2 } } as unknown as SecondLook;

/** Results that can be told apart by their filled plan; the store never looks inside. */
export function resultsFor(plan: Plan): Results {
  return { filled: plan } as Results;
}

/** Storage in memory; `fail` makes every call reject, `hang` makes it never answer. */
export class FakeStorage implements PlanStorage {
  readonly kept = new Map<string, unknown>();
  writes = 0;
  mode: 'works' | 'fail' | 'hang' | 'late' = 'works';
  /** Lets go what is late. */
  release: () => void = () => undefined;
  lastId: string | null = null;

  private async gate(): Promise<void> {
    if (this.mode === 'fail') throw new Error('no room');
    if (this.mode === 'hang') await new Promise(() => undefined);
    if (this.mode === 'late')
      await new Promise<void>((resolve) => {
        this.release = resolve;
      });
  }
  async list() {
    await this.gate();
    const all = [...this.kept.values()] as KeptPlan[];
    return all.map(entryOf);
  }
  async read(id: string) {
    await this.gate();
    return this.kept.get(id) ?? null;
  }
  async write(kept: KeptPlan) {
    this.writes += 1;
    await this.gate();
    if (!mayReplace(kept, asKept(this.kept.get(kept.plan.id)))) return false;
    this.kept.set(kept.plan.id, structuredClone(kept));
    return true;
  }
  async remove(id: string) {
    await this.gate();
    this.kept.delete(id);
  }
  async last() {
    await this.gate();
    return this.lastId;
  }
  async setLast(id: string | null) {
    await this.gate();
    this.lastId = id;
  }
}

/** Pages that hear each other, without a browser. */
export class FakeChannels {
  private readonly all = new Set<TabChannel>();
  open(): TabChannel {
    const channel: TabChannel = {
      onmessage: null,
      postMessage: (data: TabMessage) => {
        for (const other of this.all) if (other !== channel) other.onmessage?.({ data });
      },
      close: () => this.all.delete(channel),
    };
    this.all.add(channel);
    return channel;
  }
}

export function planOf(app: App): Plan {
  const { plan } = app.getState();
  if (!plan) throw new Error('no plan is open');
  return plan;
}

/** Applies what `make` builds from the open plan; throws when it is refused. */
export function edit(app: App, make: (plan: Plan) => Edit): void {
  const done = app.getState().apply(make(planOf(app)));
  if (!done.ok) throw new Error(done.reason);
}
