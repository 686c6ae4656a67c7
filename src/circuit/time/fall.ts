import type { Network } from '../network.ts';
import { newton, type Outcome, type Setting } from '../newton.ts';

const STEP: Setting = { lambda: 1, gmin: 0, towards: null, isWarm: true, longest: 20 };
/** Conductance that holds each node at its last volts: from that of a wire down to well below any leakage, S. */
const FIRST_DRAG_S = 1;
const LEAST_DRAG_S = 1e-13;
const MOST_DRAG_S = 1e9;
const MOST_STEPS = 200;
/** A step that moves the volts by less is calm, by more is wild, V. */
const CALM_V = 0.05;
const WILD_V = 1;

/**
 * Lets the volts go from `x` to where the network itself would settle, as if every node had a small capacitance: each
 * step is held by a conductance towards the volts before, which fades as the motion dies. In place.
 */
export function fallFrom(network: Network, x: Float64Array): Outcome {
  const from = new Float64Array(x.length);
  let drag = FIRST_DRAG_S;
  for (let count = 0; count < MOST_STEPS && drag > LEAST_DRAG_S && drag < MOST_DRAG_S; count++) {
    from.set(x);
    const held = newton(network, x, { ...STEP, gmin: drag, towards: from });
    if (held.status !== 'solved') {
      x.set(from);
      drag *= 8;
      continue;
    }
    let moved = 0;
    for (let k = 0; k < x.length; k++) moved = Math.max(moved, Math.abs(x[k]! - from[k]!));
    drag *= moved < CALM_V ? 0.1 : moved > WILD_V ? 1 : 0.5;
  }
  return newton(network, x, { ...STEP, longest: 40 });
}
