/** What a client sees of a worker: requests and replies carry an `id` of the client's own. */
export interface SharedPort {
  postMessage(request: { readonly id: number }): void;
  terminate(): void;
  onmessage: ((event: { readonly data: never }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

/** The worker behind it. */
export interface RealWorker {
  postMessage(request: { readonly id: number }): void;
  terminate(): void;
  onmessage: ((event: { readonly data: never }) => void) | null;
  onerror: ((event: never) => void) | null;
}

interface Line {
  readonly worker: RealWorker;
  readonly ports: Map<number, SharedPort>;
}

/**
 * Lets several clients use one worker: each of its own would load and compile the same calculations, and both would run
 * at once. Ids are made different on the way and restored on the way back. Who ends the worker ends it for all: the
 * others hear an error.
 * @returns gives a port onto the worker, which is started when there is none
 */
export function shareWorker(spawn: () => RealWorker): () => SharedPort {
  let line: Line | null = null;
  let serial = 0;
  /** Real ids of requests, to who asked and under which id. */
  const asked = new Map<number, { readonly port: number; readonly id: number }>();
  let ports = 0;

  const end = (ended: Line, but: number | null, event: { readonly message?: string }): void => {
    if (line === ended) line = null;
    ended.worker.terminate();
    const left = [...ended.ports].filter(([n]) => n !== but);
    ended.ports.clear();
    for (const [, port] of left) port.onerror?.(event);
  };

  const start = (): Line => {
    const worker = spawn();
    const begun: Line = { worker, ports: new Map() };
    worker.onmessage = ({ data }: { readonly data: { readonly id: number } }) => {
      const from = asked.get(data.id);
      const port = from && begun.ports.get(from.port);
      if (port) port.onmessage?.({ data: { ...data, id: from.id } as never });
    };
    worker.onerror = (event: { readonly message?: string }) => end(begun, null, event);
    return begun;
  };

  return () => {
    const on = line ?? start();
    line = on;
    const number = ++ports;
    const port: SharedPort = {
      postMessage(request) {
        // A client asks one thing at a time: what it asked before is answered or no longer wanted.
        let real = 0;
        for (const [key, from] of asked) {
          if (from.port !== number) continue;
          if (from.id === request.id) real = key;
          else asked.delete(key);
        }
        if (real === 0) {
          real = ++serial;
          asked.set(real, { port: number, id: request.id });
        }
        on.worker.postMessage({ ...request, id: real });
      },
      terminate() {
        if (on.ports.has(number)) end(on, number, {});
      },
      onmessage: null,
      onerror: null,
    };
    on.ports.set(number, port);
    return port;
  };
}
