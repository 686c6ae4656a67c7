import type { Device, Probe } from '../types.ts';
import type { TransientEvent } from './types.ts';

/** Two instants nearer than this are one, s. */
export const LEAST_S = 1e-9;
/** Devices that chase each other without taking time are left alone this long, doubling while they go on, s. */
const FIRST_HOLD_S = 1e-3;
const LONGEST_HOLD_S = 1;

/** Two-state devices in time: what each is, since when it has wanted otherwise, and which are held. */
export class Switches {
  readonly states: Map<string, boolean>;
  /** Since when a device has wanted to switch without a break, s. */
  private readonly since = new Map<string, number>();
  private readonly heldUntil = new Map<string, number>();
  private readonly holdS = new Map<string, number>();

  constructor(
    readonly devices: readonly Device[],
    states0: ReadonlyMap<string, boolean>,
  ) {
    this.states = new Map(devices.map((d) => [d.id, states0.get(d.id) ?? false]));
  }

  readonly on = (id: string): boolean => this.states.get(id) ?? false;

  /** Whether a device wants to switch. */
  wants(d: Device, probe: Probe): boolean {
    const on = this.on(d.id);
    return d.wants(probe, on) !== on;
  }

  /** Devices that want to switch and did not when last asked. */
  fresh(probe: Probe): readonly Device[] {
    return this.devices.filter((d) => !this.since.has(d.id) && this.wants(d, probe));
  }

  /** Devices whose wish is another at `between` than when last asked and than at `end`: it would pass unseen. */
  passing(between: Probe, end: Probe): boolean {
    return this.devices.some((d) => {
      const wanted = this.since.has(d.id);
      return this.wants(d, between) !== wanted && this.wants(d, end) === wanted;
    });
  }

  /** Asks all: who begins to want, who no longer does. */
  ask(probe: Probe, tS: number): void {
    for (const d of this.devices) {
      if (!this.wants(d, probe)) this.since.delete(d.id);
      else if (!this.since.has(d.id)) this.since.set(d.id, tS);
    }
  }

  private delayS(d: Device): number {
    return this.on(d.id) ? d.releaseS : d.operateS;
  }

  private dueS(d: Device): number {
    const since = this.since.get(d.id);
    if (since === undefined) return Number.POSITIVE_INFINITY;
    return Math.max(since + this.delayS(d), this.heldUntil.get(d.id) ?? 0);
  }

  /** When the next device switches if nothing changes, s. */
  nextS(): number {
    let next = Number.POSITIVE_INFINITY;
    for (const d of this.devices) next = Math.min(next, this.dueS(d));
    return next;
  }

  /** The device that switches at this instant: of several the one with the shortest time, then by id. Null when all keep still. */
  due(tS: number): Device | null {
    let first: Device | null = null;
    for (const d of this.devices) {
      if (this.dueS(d) > tS + LEAST_S) continue;
      if (!first || this.delayS(d) < this.delayS(first) || (this.delayS(d) === this.delayS(first) && d.id < first.id)) first = d;
    }
    return first;
  }

  flip(d: Device): boolean {
    const on = !this.on(d.id);
    this.states.set(d.id, on);
    this.since.delete(d.id);
    return on;
  }

  /** All states as one word. */
  key(): string {
    return this.devices.map((d) => (this.on(d.id) ? '1' : '0')).join('');
  }

  /** Lets go of all that are held: an input has changed. */
  free(): void {
    this.heldUntil.clear();
    this.holdS.clear();
  }

  /**
   * A set of states came again at one instant: those that switched since, and are off now, are left off for a while
   * (all of them, whatever they are, when `isLast`).
   */
  calm(flipped: readonly Device[], tS: number, isLast: boolean): void {
    for (const d of new Set(flipped)) {
      if (!isLast && this.on(d.id)) continue;
      const goesOn = tS - (this.heldUntil.get(d.id) ?? Number.NEGATIVE_INFINITY) < FIRST_HOLD_S;
      const holdS = goesOn ? Math.min(LONGEST_HOLD_S, 2 * (this.holdS.get(d.id) ?? FIRST_HOLD_S)) : FIRST_HOLD_S;
      this.holdS.set(d.id, holdS);
      this.heldUntil.set(d.id, tS + holdS);
    }
  }
}

/**
 * Lets the devices whose time has come at an instant switch, one by one, each seeing what the one before has done.
 * @param resolve solves the network anew after a switch; false when it has no solution, which ends it
 * @returns false when it ended so
 */
export function letSwitch(switches: Switches, tS: number, events: TransientEvent[], probe: () => Probe, resolve: () => boolean): boolean {
  const seen = new Set<string>();
  const flipped: Device[] = [];
  const most = 4 * switches.devices.length + 10;
  for (;;) {
    switches.ask(probe(), tS);
    const device = switches.due(tS);
    if (!device) return true;
    if (flipped.length === 0) seen.add(switches.key());
    const on = switches.flip(device);
    events.push({ tS, device: device.id, on });
    if (!resolve()) return false;
    flipped.push(device);
    const key = switches.key();
    if (seen.has(key)) switches.calm(flipped, tS, flipped.length > most);
    seen.add(key);
  }
}
