import type { Network } from './network.ts';
import { factorAt } from './newton.ts';
import { CODE, lawTwo, OUT, STRIDE } from './ports.ts';
import { type Half, Responses, response } from './response.ts';

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
  let known: Responses | null = null;
  // Slopes of the last step are near enough to tell heavy from light; null when there are none to be had.
  const responses = (): Responses | null => {
    if (!known && (work.isTangent || factorAt(network, x))) known = new Responses(work.factors!);
    return known;
  };
  /** Volts at the port per ampere put into it. */
  const portOhm = (p: number, q: number): number => {
    const at = responses();
    return at ? response(at.current(p, q), at.volts(p, q)) : Number.NaN;
  };
  /** Output of each regulator, once it has been asked for. */
  const outputs: Half[] = [];
  const demand = new Float64Array(two.count);
  for (let k = 0; k < one.count; k++) {
    if (one.code[k] !== CODE.power) continue;
    const watt = work.parOne[k * STRIDE]!;
    const leastV = work.parOne[k * STRIDE + 1]!;
    const v = x[one.from[k]!]! - x[one.to[k]!]!;
    if (watt < LEAST_W || v < 1e-6) continue;
    const isLow = v < leastV;
    const amp = isLow ? (watt * v) / (leastV * leastV) : watt / v;
    const at = responses();
    if (!at) return true;
    const into = at.current(one.from[k]!, one.to[k]!);
    const z = response(into, at.volts(one.from[k]!, one.to[k]!));
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
      const output = outputs[c] ?? at.volts(two.from2[c]!, two.to2[c]!);
      outputs[c] = output;
      const lift = response(into, output);
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
