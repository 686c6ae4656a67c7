import type { TimedCircuit } from './circuit.ts';
import type { Fuses } from './fuses.ts';
import { probeAt, probeWithin } from './look.ts';
import type { Moment } from './moment.ts';
import { GAMMA } from './step.ts';
import { LEAST_S, type Switches } from './switches.ts';

/** Where a device begins to want is found within this, s, and within this share of the step in which it happens. */
const EVENT_S = 5e-4;
const EVENT_SHARE = 1 / 64;
/** Attempts with the parabola before plain halving. */
const MOST_GUESSES = 8;

/**
 * Length at which a solved step is to be tried again because a device begins to want, or a fuse opens, within it;
 * Infinity when nothing happens or it happens at its very end. Where it lies is foretold by the parabola through the
 * solved step's start, middle and end; the step then solved to there is judged anew, so that the parabola decides nothing.
 * A wish that shows in the middle only is looked at from there.
 * @param firstS length of the first step tried from here
 */
export function eventWithin(
  circuit: TimedCircuit,
  switches: Switches,
  fuses: Fuses,
  now: Moment,
  middle: Moment,
  end: Moment,
  firstS: number,
  guesses: number,
): number {
  const spanS = end.tS - now.tS;
  const nearS = Math.max(LEAST_S, Math.min(EVENT_S, EVENT_SHARE * firstS));
  const atEnd = probeAt(circuit, end, switches.on);
  const fresh = switches.fresh(atEnd);
  const opensS = fuses.opensAfterS(circuit, now, middle, end);
  if (fresh.length === 0 && opensS > spanS) {
    const passes = spanS > nearS && switches.passing(probeAt(circuit, middle, switches.on), atEnd);
    return passes ? GAMMA * spanS : Number.POSITIVE_INFINITY;
  }
  let low = 0;
  let high = fresh.length > 0 ? 1 : opensS / spanS;
  while ((high - low) * spanS > 0.1 * nearS && fresh.length > 0) {
    const theta = 0.5 * (low + high);
    const probe = probeWithin(circuit, now, middle, end, theta, switches.on);
    if (theta * spanS >= opensS || fresh.some((d) => switches.wants(d, probe))) high = theta;
    else low = theta;
  }
  const eventS = high * spanS;
  if (spanS - eventS <= nearS) return Number.POSITIVE_INFINITY;
  return guesses < MOST_GUESSES ? eventS + 0.4 * nearS : 0.5 * spanS;
}
