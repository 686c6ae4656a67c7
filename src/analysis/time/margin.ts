import { stopS } from '../../parts/computer/settings.ts';
import type { Id } from '../../plan/types.ts';
import type { PartView } from '../factsTypes.ts';
import type { Graph } from '../graph.ts';
import { feedPath } from './feedPath.ts';
import type { Run } from './run.ts';
import type { StopMargin } from './types.ts';
import { called } from './words.ts';

/** A computer that has not stopped so long after it should have does not stop, s. */
const LATE_S = 1;

/** What one turn of the key says about a computer: its stop against its power, and its fate in cranking. */
export function stopMargin(run: Run, graph: Graph, view: PartView): StopMargin {
  const part = view.part.id;
  const { scenario } = run;
  const untilS = scenario.keyBackS ?? Number.POSITIVE_INFINITY;
  const first = (device: string, on: boolean): number | null =>
    run.events.find((e) => e.device === `${part}:${device}` && e.on === on && e.tS > scenario.keyOffS && e.tS < untilS)?.tS ?? null;
  const wasUp = stateAt(run, `${part}:powered`, scenario.keyOffS) && !stateAt(run, `${part}:halted`, scenario.keyOffS);
  const stoppedS = wasUp ? first('halted', true) : null;
  const powerFellS = wasUp ? first('powered', false) : null;
  return {
    part,
    spareS: powerFellS === null ? null : spareS(run, view, stoppedS, powerFellS),
    stoppedS,
    powerFellS,
    openedBy: powerFellS === null ? null : openedBy(run, graph, view, powerFellS),
    brownOuts: brownOuts(run, part),
    leastCrankV: stateAt(run, `${part}:powered`, scenario.startS) ? leastCrankV(run, part) : null,
  };
}

/** Seconds between the stop and the fall; when the power fell first, between the stop that would have been and the fall. */
function spareS(run: Run, view: PartView, stoppedS: number | null, fellS: number): number | null {
  if (stoppedS !== null && stoppedS <= fellS) return fellS - stoppedS;
  const { keyOffS } = run.scenario;
  const id = view.part.id;
  let upS = keyOffS;
  if (!stateAt(run, `${id}:booted`, keyOffS)) {
    const poweredS = run.events.findLast((e) => e.device === `${id}:powered` && e.on && e.tS <= keyOffS)?.tS ?? 0;
    upS = Math.max(keyOffS, poweredS + view.s.num('bootS'));
  }
  const shouldS = upS + stopS(view.s);
  return view.s.num('senseGpio') === 0 || fellS > shouldS + LATE_S ? null : fellS - shouldS;
}

/** State of a device at a time. */
function stateAt(run: Run, device: string, tS: number): boolean {
  return run.events.findLast((e) => e.device === device && e.tS <= tS)?.on ?? run.states0.get(device) ?? false;
}

/** When it lost its power with the key on and not stopped. */
function brownOuts(run: Run, part: Id): number[] {
  const { keyOnS, keyOffS, keyBackS } = run.scenario;
  const isOn = (tS: number): boolean => (tS >= keyOnS && tS <= keyOffS) || (keyBackS !== null && tS >= keyBackS);
  return run.events.filter((e) => e.device === `${part}:powered` && !e.on && isOn(e.tS) && !stateAt(run, `${part}:halted`, e.tS)).map((e) => e.tS);
}

function leastCrankV(run: Run, part: Id): number | null {
  const at = run.pairs.findIndex((p) => p.id === 'five' && p.part === part);
  const span = run.key.find((k) => k.state === 'START');
  if (at < 0 || !span) return null;
  let least = Number.POSITIVE_INFINITY;
  run.tS.forEach((tS, k) => {
    if (tS >= span.fromS && tS <= span.toS) least = Math.min(least, run.volts[at]![k]!);
  });
  return Number.isFinite(least) ? least : null;
}

/** What opened the feed: the last contact, fuse or vehicle line on the way to the computer that opened before its power fell. */
function openedBy(run: Run, graph: Graph, view: PartView, fellS: number): string | null {
  const path = feedPath(graph, view);
  const opened = run.events
    .filter((e) => e.tS > run.scenario.keyOffS && e.tS <= fellS && e.on === e.device.endsWith(':melted'))
    .map((e) => ({ tS: e.tS, part: e.device.slice(0, e.device.indexOf(':')), isConverter: e.device.endsWith(':run') }))
    .filter((e) => e.part !== view.part.id);
  const ways = [...opened.filter((e) => path.has(e.part) && !e.isConverter), ...lineEnds(run, graph, path).filter((e) => e.tS <= fellS)].sort(
    (a, b) => a.tS - b.tS,
  );
  const last = ways.at(-1) ?? opened.filter((e) => !e.isConverter).at(-1) ?? opened.at(-1);
  const by = last && graph.views.get(last.part);
  return by ? called(by) : null;
}

/** When vehicle lines on the way go dead after key-off. */
function lineEnds(run: Run, graph: Graph, path: ReadonlySet<Id>): { readonly tS: number; readonly part: Id }[] {
  const { keyOffS, doorS } = run.scenario;
  return [...path].flatMap((part) => {
    const view = graph.views.get(part);
    const line = view?.facts.tap?.line;
    if (!view || line === undefined || line === '30') return [];
    const tS = line === '75r' ? Math.min(keyOffS + view.s.num('retainS'), doorS ?? Number.POSITIVE_INFINITY) : keyOffS;
    return [{ tS, part }];
  });
}
