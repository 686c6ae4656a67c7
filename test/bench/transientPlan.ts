import type { Device, Element } from '../../src/circuit/index.ts';
import type { TimedNetwork } from '../../src/circuit/time/index.ts';
import { planNetwork } from './planNetwork.ts';

/** Key and supply of the run: parked, accessory, ignition, a start with its dip and rippling plateau, running, key off. */
const KEY_ON_S = 10;
const START_S = 30;
const RUN_S = 41;
const KEY_OFF_S = 120;
export const UNTIL_S = 180;
const CORNERS: readonly (readonly [tS: number, volt: number])[] = [
  [0, 12.6],
  [KEY_ON_S, 12.6],
  [KEY_ON_S, 12],
  [START_S, 12],
  // Test level II of ISO 16750-2 (from memory): 4.5 V for 15 ms, then a plateau of 6.5 V with ripple, 10 s.
  [START_S + 0.005, 4.5],
  [START_S + 0.02, 4.5],
  [START_S + 0.07, 6.5],
  [RUN_S - 0.1, 6.5],
  [RUN_S, 14.2],
  [KEY_OFF_S, 14.2],
  [KEY_OFF_S, 12.8],
  [UNTIL_S, 12.6],
];
const RIPPLE_HZ = 2;
const RIPPLE_V = 1;

/** Open-circuit supply at a time, V. */
export function supplyAt(tS: number): number {
  let k = 1;
  while (k < CORNERS.length - 1 && CORNERS[k]![0] <= tS) k++;
  const [t0, v0] = CORNERS[k - 1]!;
  const [t1, v1] = CORNERS[k]!;
  const straight = v0 + ((v1 - v0) * (tS - t0)) / (t1 - t0);
  const isPlateau = tS > START_S + 0.07 && tS < RUN_S - 0.1;
  return isPlateau ? straight + RIPPLE_V * Math.sin(2 * Math.PI * RIPPLE_HZ * (tS - START_S - 0.07)) : straight;
}

/**
 * A plan of about 20 parts a repeat in time: bulk and output capacitors, a main relay with coil and diode that the key
 * pulls in, a converter with under-voltage lock-out, a computer that takes 20 s to come up and holds the relay 30 s after key-off.
 */
export function timedPlan(repeats: number): TimedNetwork {
  const cells = Array.from({ length: repeats }, (_, r) => r);
  const fixed = planNetwork(repeats, 0);
  for (const r of cells) {
    const at = (name: string): string => `${name}.${r}`;
    fixed.push(
      { kind: 'capacitor', id: at('output'), a: at('out'), b: at('return'), farad: 4.7e-4, esrOhm: 0.03, leakOhm: 1e6 },
      { kind: 'capacitor', id: at('filter'), a: at('far0'), b: at('board0'), farad: 1e-7, esrOhm: 0.02, leakOhm: 1e9 },
      { kind: 'resistor', id: at('key'), a: at('fused'), b: at('coil'), ohm: 1e12 },
      { kind: 'resistor', id: at('hold'), a: at('fused'), b: at('coil'), ohm: 1e12 },
      { kind: 'inductor', id: at('winding'), a: at('coil'), b: at('return'), henry: 0.3, ohm: 90 },
      { kind: 'diode', id: at('suppressor'), a: at('return'), b: at('coil'), vF: 0.7, iF: 0.1, n: 1.6, tC: 40, ohm: 0.05 },
    );
  }
  const index = new Map(fixed.map((e, k) => [e.id, k]));
  const swap = (list: Element[], id: string, to: Partial<Element>): void => {
    const k = index.get(id)!;
    list[k] = { ...list[k]!, ...to } as Element;
  };
  const kept = new Map<string, readonly Element[]>();
  /** Everything but the supply, by device states and key. */
  const standing = (on: (id: string) => boolean, isKeyOn: boolean): readonly Element[] => {
    const key = `${isKeyOn}${cells.map((r) => `${on(`relay.${r}`)}${on(`uvlo.${r}`)}${on(`computer.${r}`)}${on(`hold.${r}`)}`).join()}`;
    let list = kept.get(key);
    if (list) return list;
    const fresh = fixed.slice();
    for (const r of cells) {
      swap(fresh, `key.${r}`, { ohm: isKeyOn ? 0.02 : Number.POSITIVE_INFINITY });
      swap(fresh, `hold.${r}`, { ohm: on(`hold.${r}`) ? 0.02 : Number.POSITIVE_INFINITY });
      swap(fresh, `contact.${r}`, { ohm: on(`relay.${r}`) ? 0.01 : Number.POSITIVE_INFINITY });
      swap(fresh, `converter.${r}`, { on: on(`uvlo.${r}`) });
      swap(fresh, `board.${r}`, { watt: on(`computer.${r}`) ? 6 : 2 });
    }
    list = fresh;
    kept.set(key, list);
    return list;
  };
  const elements: TimedNetwork['elements'] = (on, tS) => {
    const list = standing(on, tS >= KEY_ON_S && tS < KEY_OFF_S).slice();
    list[0] = { ...list[0]!, volt: supplyAt(tS) } as Element;
    return list;
  };
  const devices = cells.flatMap((r): Device[] => [
    { id: `relay.${r}`, wants: (probe, on) => probe.amps(`winding.${r}`) > (on ? 0.02 : 0.07), operateS: 0.01, releaseS: 0.005 },
    { id: `uvlo.${r}`, wants: (probe, on) => probe.volts(`in.${r}`) - probe.volts(`return.${r}`) > (on ? 5.5 : 7), operateS: 0, releaseS: 0 },
    { id: `computer.${r}`, wants: (probe) => probe.volts(`board5.${r}`) - probe.volts(`board0.${r}`) > 4.6, operateS: 20, releaseS: 0 },
    {
      id: `hold.${r}`,
      wants: (probe, on) => probe.amps(`key.${r}`) > 0.01 && (on || probe.on(`computer.${r}`)),
      operateS: 0,
      releaseS: 30,
    },
  ]);
  return { elements, devices, breaks: [...new Set(CORNERS.map(([t]) => t))] };
}
