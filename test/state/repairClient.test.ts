import { describe, expect, it } from 'vitest';
import type { OfferedRepair } from '../../src/advise/index.ts';
import type { Finding } from '../../src/rules/types.ts';
import { type RepairPort, repairClient } from '../../src/state/repairClient.ts';
import { bench } from '../rules/plans.ts';

type Sent = Parameters<RepairPort['postMessage']>[0];

/** A worker that answers when it is told to. */
function fake() {
  const sent: Sent[] = [];
  const port: RepairPort = { postMessage: (m) => void sent.push(m), terminate: () => {}, onmessage: null, onerror: null };
  return { sent, port, answer: (id: number, offers: readonly OfferedRepair[]) => port.onmessage?.({ data: { id, offers } }) };
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

describe('asking for repairs', () => {
  it('sends one question at a time and numbers the plan once', () => {
    const { sent, port, answer } = fake();
    const client = repairClient(() => port);
    const { plan } = bench();
    const heard: string[] = [];
    client.ask(plan, finding('a'), () => heard.push('a'));
    client.ask(plan, finding('b'), () => heard.push('b'));
    expect(sent.map((m) => m.rule)).toEqual(['a']);
    answer(sent[0]!.id, [OFFER]);
    expect(heard).toEqual(['a']);
    expect(sent.map((m) => m.rule)).toEqual(['a', 'b']);
    expect(sent[0]!.planKey).toBe(sent[1]!.planKey);
    client.ask(bench().plan, finding('c'), () => heard.push('c'));
    answer(sent[1]!.id, []);
    expect(sent[2]!.planKey).not.toBe(sent[0]!.planKey);
  });

  it('drops what nobody waits for, and goes on when the worker fails', () => {
    const { sent, port, answer } = fake();
    const client = repairClient(() => port);
    const { plan } = bench();
    const heard: (readonly OfferedRepair[])[] = [];
    const back = client.ask(plan, finding('a'), (o) => heard.push(o));
    client.ask(plan, finding('b'), (o) => heard.push(o))();
    client.ask(plan, finding('c'), (o) => heard.push(o));
    back();
    answer(sent[0]!.id, [OFFER]);
    expect(heard).toEqual([]);
    expect(sent.map((m) => m.rule)).toEqual(['a', 'c']);
    port.onerror?.();
    expect(heard).toEqual([[]]);
  });
});
