import type { Network } from './network.ts';
import { factorAt } from './newton.ts';
import { CODE, lawTwo, OUT, STRIDE } from './ports.ts';
import { solve } from './sparse.ts';

/** Below this a load cannot move a supply: no second state, W. */
const LEAST_W = 1e-3;
/** Share of the greatest power a supply can give (V_th squared over 4 R_th) above which a load is started from zero. */
const HEAVY = 0.8;
/** The same for the input of a converter, whose load at low volts is not known here. */
const HEAVY_CONVERTER = 0.5;

/**
 * Whether a solved network may have a second state that raising the sources from zero would reach instead: a
 * constant-power load or converter that asks for much of what its supply can give, that would hang at low volts on
 * the way up (the supply, seen from its terminals, does not reach its least volts with the current drawn there), or
 * that hangs there although its supply could carry it. Needs the solution in `x` and the values loaded.
 */
export function isAmbiguous(network: Network, x: Float64Array): boolean {
  const { one, two, work } = network;
  // Slopes of the last step are near enough to tell heavy from light.
  let isFactored = work.isTangent;
  const response = work.step;
  // Volts at the port per ampere put into it.
  const portOhm = (p: number, q: number): number => {
    if (!isFactored && !factorAt(network, x)) return Number.NaN;
    isFactored = true;
    response.fill(0);
    if (p < response.length) response[p] = 1;
    if (q < response.length) response[q]! -= 1;
    solve(work.factors!, response, response);
    return (p < response.length ? response[p]! : 0) - (q < response.length ? response[q]! : 0);
  };
  const demand = new Float64Array(two.count);
  for (let k = 0; k < one.count; k++) {
    if (one.code[k] !== CODE.power) continue;
    const watt = work.parOne[k * STRIDE]!;
    const leastV = work.parOne[k * STRIDE + 1]!;
    const v = x[one.from[k]!]! - x[one.to[k]!]!;
    if (watt < LEAST_W || v < 1e-6) continue;
    const isLow = v < leastV;
    const amp = isLow ? (watt * v) / (leastV * leastV) : watt / v;
    const z = portOhm(one.from[k]!, one.to[k]!);
    const supplyOhm = 1 / (1 / z + (isLow ? -watt / (leastV * leastV) : watt / (v * v)));
    if (!(supplyOhm > 0)) return true;
    const openV = v + supplyOhm * amp;
    const share = (4 * supplyOhm * watt) / (openV * openV);
    if (isLow) {
      // Hangs low: another state exists only when the supply could carry the load.
      if (share <= 1 && openV > leastV) return true;
      continue;
    }
    const hangs = leastV * leastV < 1.1 * supplyOhm * watt && openV < 1.05 * (leastV + (supplyOhm * watt) / leastV);
    if (share > HEAVY || hangs) return true;
    for (let c = 0; c < two.count; c++) {
      if (two.code[c] === CODE.opto || !work.parTwo[c * STRIDE]) continue;
      const r = two.from2[c]!;
      const s = two.to2[c]!;
      const lift = (r < response.length ? response[r]! : 0) - (s < response.length ? response[s]! : 0);
      // Of the current that reaches the supply, the part this regulator carries.
      const carried = ((lift / work.parTwo[c * STRIDE + 2]!) * supplyOhm) / z;
      demand[c]! += Math.min(1, Math.max(0, carried)) * (watt / leastV);
    }
  }
  for (let c = 0; c < two.count; c++) {
    if (two.code[c] === CODE.opto || !work.parTwo[c * STRIDE]) continue;
    if (demand[c]! > 0.95 * work.parTwo[c * STRIDE + 3]!) return true;
    if (two.code[c] === CODE.stepdown && isHeavyConverter(network, x, c, portOhm)) return true;
  }
  return false;
}

function isHeavyConverter(network: Network, x: Float64Array, c: number, portOhm: (p: number, q: number) => number): boolean {
  const { two, work } = network;
  const p = two.from[c]!;
  const q = two.to[c]!;
  const u = x[p]! - x[q]!;
  if (u < 1e-6) return false;
  lawTwo(CODE.stepdown, work.parTwo, c * STRIDE, work.eta[c]!, u, x[two.from2[c]!]! - x[two.to2[c]!]!);
  const amp = OUT[0]!;
  if (amp * u < LEAST_W) return false;
  const z = portOhm(p, q);
  // At fixed output power the port itself shows -P/V squared.
  const supplyOhm = 1 / (1 / z + amp / u);
  if (!(supplyOhm > 0)) return true;
  const openV = u + supplyOhm * amp;
  return 4 * supplyOhm * amp * u > HEAVY_CONVERTER * openV * openV;
}
