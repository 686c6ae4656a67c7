import type { Device } from '../types.ts';
import type { TimedCircuit } from './circuit.ts';
import { type FuseState, fuseHeat } from './fuse.ts';
import { ampsIn } from './look.ts';
import type { Moment } from './moment.ts';
import { GAMMA } from './step.ts';
import type { TimedFuse } from './types.ts';

/** The fuses of a run with their heat. */
export class Fuses {
  private readonly heat: Float64Array;
  private readonly most: Float64Array;
  /** A melted link as a device: on at once, for good. */
  readonly devices: readonly Device[];

  constructor(
    private readonly fuses: readonly TimedFuse[],
    states: ReadonlyMap<string, boolean>,
  ) {
    this.heat = Float64Array.from(fuses, (f) => (states.get(f.id) ? 1 : 0));
    this.most = this.heat.slice();
    this.devices = fuses.map((f, k) => ({ id: f.id, wants: () => this.heat[k]! >= 1, operateS: 0, releaseS: 0 }));
  }

  /** Heat after a step: its two parts each with the current going straight. */
  private after(k: number, circuit: TimedCircuit, now: Moment, middle: Moment, end: Moment): FuseState {
    const { element, port, gates, besideA = 0 } = this.fuses[k]!;
    const ampsOf = (m: Moment): number => {
      const amp = Math.abs(ampsIn(circuit, m, element, port));
      return amp > 0 ? amp + besideA : 0;
    };
    const spanS = end.tS - now.tS;
    const middleA = ampsOf(middle);
    const first = fuseHeat(gates, this.heat[k]!, GAMMA * spanS, ampsOf(now), middleA);
    if (first.openedAfterS !== null) return first;
    const second = fuseHeat(gates, first.heat, (1 - GAMMA) * spanS, middleA, ampsOf(end));
    return { heat: second.heat, openedAfterS: second.openedAfterS === null ? null : GAMMA * spanS + second.openedAfterS };
  }

  /** When the first fuse opens within a step, s from its start; Infinity when none does. */
  opensAfterS(circuit: TimedCircuit, now: Moment, middle: Moment, end: Moment): number {
    let first = Number.POSITIVE_INFINITY;
    for (let k = 0; k < this.heat.length; k++) {
      if (this.heat[k]! < 1) first = Math.min(first, this.after(k, circuit, now, middle, end).openedAfterS ?? Number.POSITIVE_INFINITY);
    }
    return first;
  }

  /** Takes over the heat of an accepted step. */
  heatOver(circuit: TimedCircuit, now: Moment, middle: Moment, end: Moment): void {
    for (let k = 0; k < this.heat.length; k++) {
      this.heat[k] = this.after(k, circuit, now, middle, end).heat;
      this.most[k] = Math.max(this.most[k]!, this.heat[k]!);
    }
  }

  /** Greatest share of the way to melting so far, by id. */
  mostHeat(): ReadonlyMap<string, number> {
    return new Map(this.fuses.map((f, k) => [f.id, this.most[k]!]));
  }
}
