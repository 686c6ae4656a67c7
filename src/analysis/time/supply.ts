import type { Band, Plan } from '../../plan/types.ts';
import { type Curve, joined, later, lines } from '../../trade/curves.ts';
import { startingProfile } from '../../trade/profiles.ts';
import type { KeySpan } from './types.ts';

/** How long the supply takes to a new level, s: per band where it varies (common practice, no source). */
const LOAD_STEP_S = 0.05;
const SLEEP_STEP_S = 10;
/** 0.5 to 3 s until the alternator has taken over; 1 to 10 min until the battery's surface charge is gone. */
const ALTERNATOR_S: Readonly<Record<Band, number>> = { low: 3, typical: 1.5, high: 0.5 };
const SURFACE_S: Readonly<Record<Band, number>> = { low: 60, typical: 180, high: 600 };

/**
 * The battery's open-circuit supply over one turn of the key, without jumps. Cranking is the starting profile of the
 * plan's dip level in every band: it is a test to be stood, not a reading.
 * @param level supply of a state in the band, V
 */
export function supplyCurve(plan: Plan, spans: readonly KeySpan[], band: Band, level: (state: KeySpan['state']) => number): Curve {
  let points: [number, number][] = [[0, level(spans[0]!.state)]];
  const pieces: Curve[] = [];
  const go = (fromS: number, volt: number, overS: number): void => {
    const now = lines(points).volts(fromS);
    points = [...points.filter(([tS]) => tS < fromS), [fromS, now], [fromS + overS, volt]];
  };
  let settledS = 0;
  for (const { state, fromS } of spans.slice(1)) {
    const volt = level(state);
    if (state === 'START') {
      const before = lines(points);
      const startV = before.volts(fromS);
      const profile = startingProfile(plan.vehicle.systemV, plan.vehicle.dipLevel, startV);
      pieces.push(before, later(profile, fromS));
      points = [[fromS + profile.lastsS, startV]];
    } else if (state === 'RUN_CHARGING') go(fromS, volt, ALTERNATOR_S[band]);
    else if (state === 'RETAIN') {
      go(fromS, volt, SURFACE_S[band]);
      settledS = fromS + SURFACE_S[band];
    } else if (state === 'OFF_ASLEEP') go(Math.max(fromS, settledS), volt, SLEEP_STEP_S);
    else if (state !== 'RETAIN_DOOR') go(fromS, volt, LOAD_STEP_S);
  }
  return joined([...pieces, lines(points)]);
}
