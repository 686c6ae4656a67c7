import type { Analysis } from '../analysis/types.ts';
import { days } from '../faces/format.ts';
import { LevelMark } from '../faces/LevelMark.tsx';
import { Term } from '../faces/Term.tsx';
import type { Id, VehicleState } from '../plan/types.ts';
import { crankAnswer, type StopAnswer, stopAnswer } from '../sheet/timing/words.ts';
import { useApp } from '../state/store.ts';

const LEVEL: Readonly<Record<StopAnswer['kind'], 'fault' | 'advice' | null>> = { short: 'fault', never: 'fault', stays: 'advice', none: null, ample: null };

/** The story in three answers: does it stop in time, does it live through cranking, how long may the vehicle stand. */
export function StripHead({ nameOf }: { nameOf(part: Id): string }) {
  const margins = useApp((s) => s.margins.result);
  const busy = useApp((s) => s.margins.busy);
  const cycleMargins = useApp((s) => s.cycle.result?.margins);
  const analysis = useApp((s) => s.results?.analysis);
  const parked = analysis?.parked;
  const stop = useStop(nameOf);
  const crank = crankAnswer(margins ?? cycleMargins ?? []);
  const level = stop ? LEVEL[stop.kind] : null;
  return (
    <p className="strip-answers">
      {stop ? (
        <b className={level ? `lvl-${level}` : ''}>
          {level ? <LevelMark level={level} size={16} /> : null}
          {stop.text}
        </b>
      ) : (
        <span className="soft">{busy ? 'the worst case is being worked out …' : 'the worst case has not been worked out'}</span>
      )}
      {crank ? (
        <span className={crank.kind === 'browns out' ? 'lvl-fault' : ''}>
          {crank.kind === 'browns out' ? <LevelMark level="fault" size={14} /> : null}
          {crank.text}
        </span>
      ) : null}
      {parked && Number.isFinite(parked.days) ? (
        <span>
          may <Term word="parked days">stand</Term> {days(parked.days)}
        </span>
      ) : null}
    </p>
  );
}

/** The answer about stopping, once the worst case has been worked out. */
export function useStop(nameOf: (part: Id) => string): StopAnswer | null {
  const margins = useApp((s) => s.margins.result);
  const analysis = useApp((s) => s.results?.analysis);
  return margins && stopAnswer(margins, nameOf, (part) => !analysis || isOn(analysis, part, 'powered', 'RUN_CHARGING'));
}

/** State of a part's device at rest, typical; true where it was not computed. */
function isOn(analysis: Analysis, part: Id, device: string, state: VehicleState): boolean {
  const at = analysis.index.devices.indexOf(`${part}:${device}`);
  const reading = analysis.readings.find((r) => r.state === state && r.band === 'typical');
  return at < 0 || reading?.status !== 'solved' || reading.deviceOn[at] === 1;
}
