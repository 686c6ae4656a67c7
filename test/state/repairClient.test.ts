import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { OfferedRepair } from '../../src/advise/index.ts';
import type { Finding } from '../../src/rules/types.ts';
import { REPAIR_QUIET_MS, type RepairPort, repairClient } from '../../src/state/repairClient.ts';
import { bench } from '../rules/plans.ts';

type Sent = Parameters<RepairPort['postMessage']>[0];

/** A worker that answers when it is told to. */
function fake() {
  const sent: Sent[] = [];
  const port: RepairPort = { postMessage: (m) => void sent.push(m), terminate: () => {}, onmessage: null, onerror: null };
  const orders = () => sent.filter((m) => m.kind === 'offers');
  return {
    port,
    orders,
    rules: () => orders().map((m) => m.rule),
    stopped: () => sent.filter((m) => m.kind === 'stop').map((m) => m.id),
    answer: (at: number, offers: readonly OfferedRepair[]) => port.onmessage?.({ data: { id: orders()[at]!.id, offers } }),
  };
}

const finding = (rule: string): Finding => ({
  rule,
  code: 'A1',
  level: 'hazard',
  subject: { kind: 'part', id: 'p1' },
  related: [],
  what: '',
  todo: '',
  figures: [],
  state: null,
  band: null,
});
const OFFER = { title: 'x' } as OfferedRepair;
const quiet = () => vi.advanceTimersByTime(REPAIR_QUIET_MS);

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('asking for repairs', () => {
  it('sends one question at a time and numbers the plan once', () => {
    const worker = fake();
    const client = repairClient(() => worker.port);
    const { plan } = bench();
    const heard: string[] = [];
    client.ask(plan, finding('a'), () => heard.push('a'));
    client.ask(plan, finding('b'), () => heard.push('b'));
    quiet();
    expect(worker.rules()).toEqual(['a']);
    worker.answer(0, [OFFER]);
    expect(heard).toEqual(['a']);
    expect(worker.rules()).toEqual(['a', 'b']);
    expect(worker.orders()[0]!.planKey).toBe(worker.orders()[1]!.planKey);
    client.ask(bench().plan, finding('c'), () => heard.push('c'));
    quiet();
    worker.answer(1, []);
    expect(worker.orders()[2]!.planKey).not.toBe(worker.orders()[0]!.planKey);
  });

  it('waits until a plan has been left alone', () => {
    const worker = fake();
    const client = repairClient(() => worker.port);
    const back = client.ask(bench().plan, finding('a'), () => undefined);
    vi.advanceTimersByTime(REPAIR_QUIET_MS - 1);
    back();
    const { plan } = bench();
    client.ask(plan, finding('b'), () => undefined);
    vi.advanceTimersByTime(REPAIR_QUIET_MS - 1);
    expect(worker.rules()).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(worker.rules()).toEqual(['b']);
    // Another question about the same plan need not wait again.
    worker.answer(0, []);
    client.ask(plan, finding('c'), () => undefined);
    expect(worker.rules()).toEqual(['b', 'c']);
  });

  it('stops or drops what nobody waits for, and goes on when the worker fails', async () => {
    const worker = fake();
    const client = repairClient(() => worker.port);
    const { plan } = bench();
    const heard: (readonly OfferedRepair[])[] = [];
    const back = client.ask(plan, finding('a'), (o) => heard.push(o));
    client.ask(plan, finding('b'), (o) => heard.push(o))();
    client.ask(plan, finding('c'), (o) => heard.push(o));
    quiet();
    back();
    // Until the rest of what is taken back in the same breath has been.
    expect(worker.rules()).toEqual(['a']);
    await Promise.resolve();
    expect(worker.stopped()).toEqual([worker.orders()[0]!.id]);
    worker.answer(0, [OFFER]);
    expect(heard).toEqual([]);
    expect(worker.rules()).toEqual(['a', 'c']);
    worker.port.onerror?.();
    expect(heard).toEqual([[]]);
  });
});
