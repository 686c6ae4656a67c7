import type { Device, Element, Probe, StepDown } from '../../circuit/types.ts';
import type { PartView } from '../factsTypes.ts';
import { nodeName } from '../graph.ts';

/** At its limit and with its output below this share of its set volts a converter counts as overloaded (common practice, no source). */
const AT_LIMIT = 0.95;
const DRAGGED_TO = 0.8;
/** After so many failed tries the next ones are followed at this distance only, s: nothing else changes between them. */
const FEW_TRIES = 6;
const RARE_S = 2;

/** A converter that pauses when its output is dragged down for longer than it bears, and tries again. */
interface Overload {
  readonly at: number;
  readonly device: Device;
}

/** The converters of a plan that pause instead of holding their limit; each as a device that is on during a pause. */
export class Overloads {
  readonly devices: readonly Device[];
  private readonly list: readonly Overload[];

  /**
   * @param elements of one moment, for limits and set volts
   * @param at places of elements by id
   * @param giveUpS how long an overload is borne before a pause, s
   */
  constructor(views: Iterable<PartView>, elements: readonly Element[], at: ReadonlyMap<string, number>, giveUpS: number) {
    this.list = [...views].flatMap((view) => {
      const place = at.get(`${view.part.id}:conv`);
      const element = place === undefined ? undefined : elements[place];
      if (place === undefined || element?.kind !== 'stepdown' || !(view.s.num('pauseS') > 0)) return [];
      return [{ at: place, device: new Pausing(view, element, giveUpS) }];
    });
    this.devices = this.list.map((o) => o.device);
  }

  /** Which converters pause, as one word. */
  key(on: (device: string) => boolean): string {
    let key = '';
    for (const { device } of this.list) if (on(device.id)) key += `${device.id},`;
    return key;
  }

  /** Switches off the elements of those that pause. */
  lay(out: Element[], on: (device: string) => boolean): void {
    for (const { at, device } of this.list) if (on(device.id)) out[at] = { ...(out[at] as StepDown), on: false };
  }
}

class Pausing implements Device {
  readonly id: string;
  private readonly pauseS: number;
  private readonly out: string;
  private readonly return0: string;
  private tries = 0;
  private wasOn = false;

  constructor(
    view: PartView,
    private readonly element: StepDown,
    readonly operateS: number,
  ) {
    this.id = `${view.part.id}:overload`;
    this.pauseS = view.s.num('pauseS');
    this.out = nodeName(view, 'out');
    this.return0 = nodeName(view, 'gnd');
  }

  get releaseS(): number {
    return this.tries > FEW_TRIES ? Math.max(RARE_S, this.pauseS) : this.pauseS;
  }

  wants(probe: Probe, on: boolean): boolean {
    if (on && !this.wasOn) this.tries++;
    this.wasOn = on;
    if (on) return false;
    const volt = probe.volts(this.out) - probe.volts(this.return0);
    const { setV, limitA, id } = this.element;
    if (volt >= DRAGGED_TO * setV) {
      this.tries = 0;
      return false;
    }
    return Math.abs(probe.amps(id, 'out')) >= AT_LIMIT * limitA;
  }
}
