import { describe, expect, it } from 'vitest';
import { type RealWorker, type SharedPort, shareWorker } from '../../src/state/sharedWorker.ts';

/** Workers that answer when they are told to. */
function workers() {
  const all: { readonly worker: RealWorker; readonly sent: { id: number; what?: string }[]; ended: boolean }[] = [];
  const port = shareWorker(() => {
    const sent: { id: number }[] = [];
    const worker: RealWorker = {
      postMessage: (m) => void sent.push(m),
      terminate: () => {
        made.ended = true;
      },
      onmessage: null,
      onerror: null,
    };
    const made = { worker, sent, ended: false };
    all.push(made);
    return made.worker;
  });
  return { all, port };
}

/** What a client has heard: replies, and errors as "error". */
function listen(port: SharedPort): unknown[] {
  const heard: unknown[] = [];
  port.onmessage = ({ data }: { data: unknown }) => void heard.push(data);
  port.onerror = () => void heard.push('error');
  return heard;
}

const reply = (worker: RealWorker, id: number, more: object): void => worker.onmessage?.({ data: { id, ...more } as never });

describe('one worker for several clients', () => {
  it('gives each its own replies under its own ids', () => {
    const { all, port } = workers();
    const [a, b] = [port(), port()];
    const [heardA, heardB] = [listen(a), listen(b)];
    a.postMessage({ id: 1 });
    b.postMessage({ id: 1 });
    expect(all).toHaveLength(1);
    const { worker, sent } = all[0]!;
    const [first, second] = sent;
    expect(first!.id).not.toBe(second!.id);
    reply(worker, second!.id, { offers: [] });
    reply(worker, first!.id, { results: 1 });
    reply(worker, first!.id, { look: 2 });
    expect(heardA).toEqual([
      { id: 1, results: 1 },
      { id: 1, look: 2 },
    ]);
    expect(heardB).toEqual([{ id: 1, offers: [] }]);
  });

  it('takes a second message of one id for the same request, and forgets what was asked before', () => {
    const { all, port } = workers();
    const a = port();
    const heard = listen(a);
    a.postMessage({ id: 1 });
    a.postMessage({ id: 1 });
    a.postMessage({ id: 2 });
    const { worker, sent } = all[0]!;
    expect(sent[0]!.id).toBe(sent[1]!.id);
    reply(worker, sent[0]!.id, {});
    expect(heard).toEqual([]);
  });

  it('ended by one, tells the others, and a new one begins; an old client cannot end that', () => {
    const { all, port } = workers();
    const [a, b] = [port(), port()];
    const [heardA, heardB] = [listen(a), listen(b)];
    a.terminate();
    expect(all[0]!.ended).toBe(true);
    expect(heardA).toEqual([]);
    expect(heardB).toEqual(['error']);
    port();
    b.terminate();
    expect(all.map((w) => w.ended)).toEqual([true, false]);
  });

  it('that fails tells all of them', () => {
    const { all, port } = workers();
    const heard = [port(), port()].map(listen);
    all[0]!.worker.onerror?.({ message: 'gone' } as never);
    expect(heard).toEqual([['error'], ['error']]);
    expect(all[0]!.ended).toBe(true);
  });
});
