import type { Network } from '../network.ts';
import { factorAt } from '../newton.ts';
import { solve } from '../sparse.ts';
import type { Stores } from './stores.ts';

/**
 * What an error of the held figures becomes in the stage last solved: fast stores that only follow the network do
 * not keep it. Uses the factors of that stage, or with `at` those of the same stage linearised there.
 * After Hosea and Shampine (Appl. Numer. Math. 20, 1996; from memory).
 * @param raw error per store, V or A; the result goes to `soft`
 * @param spanS span of the stage, s
 */
export function soften(network: Network, stores: Stores, raw: Float64Array, soft: Float64Array, spanS: number, at: Float64Array | null): void {
  const { work } = network;
  if (at !== null) {
    work.trial.set(at);
    work.rest.fill(0);
  }
  if (at === null ? work.factors === null : !factorAt(network, work.trial)) {
    soft.set(raw);
    return;
  }
  const n = network.nodes.length;
  const { count, isCapacitor, branchS, from, to } = stores;
  const push = work.residual;
  push.fill(0);
  for (let s = 0; s < count; s++) {
    const amp = branchS[s]! * (isCapacitor[s] ? raw[s]! : -stores.dragOhm(s, spanS) * raw[s]!);
    push[from[s]!]! += amp;
    push[to[s]!]! -= amp;
  }
  const moved = work.step;
  for (let k = 0; k < n; k++) moved[k] = push[k]!;
  solve(work.factors!, moved, moved);
  for (let s = 0; s < count; s++) {
    const a = from[s]!;
    const b = to[s]!;
    const amp = branchS[s]! * ((a < n ? moved[a]! : 0) - (b < n ? moved[b]! : 0));
    const drag = stores.dragOhm(s, spanS);
    if (!(stores.size[s]! > 0)) soft[s] = 0;
    else soft[s] = isCapacitor[s] ? raw[s]! + drag * (amp - branchS[s]! * raw[s]!) : amp + branchS[s]! * drag * raw[s]!;
  }
}
