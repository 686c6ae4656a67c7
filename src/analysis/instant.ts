import type { Device, Element } from '../circuit/types.ts';
import type { Situation } from '../parts/types.ts';
import type { Mapped, PartBehaviour } from './behaviours.ts';
import type { PartView } from './factsTypes.ts';

export interface Behaving {
  readonly view: PartView;
  readonly behaviour: PartBehaviour;
}

/** A part whose elements change with its devices: where they stand in the list, and for which states. */
interface Switching {
  readonly behaviour: PartBehaviour;
  readonly situation: Omit<Situation, 'on'>;
  readonly from: number;
  key: number;
  /** What is known of this moment, and for how many things looked at. */
  known: ReadonlyMap<number, Mapped>;
  looks: number;
}

/** The network of one moment: its devices, and its elements for any states of them. */
export class Instant {
  /** Devices of every part, ids prefixed with `part:`; their probes are handed local names. */
  readonly devices: readonly Device[];
  private list: Element[];
  private readonly switching: Switching[] = [];

  /** @param situationOf what a part finds itself in */
  constructor(common: readonly Element[], parts: readonly Behaving[], situationOf: (view: PartView) => Omit<Situation, 'on'>) {
    const list = [...common];
    const devices: Device[] = [];
    const off = (): boolean => false;
    for (const { view, behaviour } of parts) {
      let mapped = behaviour.constant;
      if (!mapped) {
        const situation = situationOf(view);
        let known = behaviour.moment(situation);
        mapped = known.get(behaviour.switchKey(off)) ?? null;
        if (!mapped) {
          mapped = behaviour.at(situation, off);
          // It may have looked at more than before.
          known = behaviour.moment(situation);
        }
        if (behaviour.switches) this.switching.push({ behaviour, situation, from: list.length, key: behaviour.switchKey(off), known, looks: behaviour.looks });
      }
      for (const d of mapped.devices) devices.push(d);
      for (const e of mapped.elements) list.push(e);
    }
    this.list = list;
    this.devices = devices;
  }

  /**
   * All elements with two-state devices as `on` says, in an order that never changes. A list that was handed out stays as
   * it is; where no element is different it is handed out again.
   */
  elements(on: (device: string) => boolean): readonly Element[] {
    let fresh = false;
    for (const s of this.switching) {
      const { behaviour } = s;
      let key = behaviour.switchKey(on);
      if (key === s.key) continue;
      const { elements } = (behaviour.looks === s.looks && s.known.get(key)) || behaviour.at(s.situation, on);
      if (behaviour.looks !== s.looks) {
        s.looks = behaviour.looks;
        s.known = behaviour.moment(s.situation);
        key = behaviour.switchKey(on);
      }
      s.key = key;
      for (let k = 0; k < elements.length; k++) {
        if (this.list[s.from + k] === elements[k]) continue;
        if (!fresh) this.list = this.list.slice();
        fresh = true;
        this.list[s.from + k] = elements[k]!;
      }
    }
    return this.list;
  }
}
