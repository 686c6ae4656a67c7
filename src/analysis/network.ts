import type { Device, Element } from '../circuit/types.ts';
import type { Situation } from '../parts/types.ts';
import type { Band, Id, Line, VehicleState } from '../plan/types.ts';
import { BODY_JOINT_OHM, ohmPerM, TERMINATION_OHM } from '../trade/conductors.ts';
import { isLive } from '../trade/lines.ts';
import { supplyV } from '../trade/supply.ts';
import type { PartView } from './factsTypes.ts';
import { type Graph, nodeName } from './graph.ts';

/** One moment to compute: state, band, and what may differ from the table. */
export interface Moment {
  readonly state: VehicleState;
  readonly band: Band;
  /** Supply instead of the table's, V. */
  readonly supplyV?: number;
  readonly load?: Situation['load'];
  /** Buttons held down. */
  readonly pressed?: ReadonlySet<Id>;
}

/** Per wire: length and the rise of its conductor above the zone at the heating current, both fixed before solving. */
export interface WireFigures {
  readonly lengthM: number;
  readonly zoneMaxC: number;
  readonly zoneMinC: number;
  readonly riseK: number;
}

/** Conductors are warm at work: the typical band takes the handbook's 20 degrees C. */
const TYPICAL_C = 20;
const LOAD_OF: Record<Band, Situation['load']> = { low: 'heavy', typical: 'typical', high: 'light' };

/** Temperature of a wire's conductor in a band, degrees C: hottest in the low band, coldest in the high one. */
export function wireC(figures: WireFigures, band: Band): number {
  if (band === 'low') return figures.zoneMaxC + figures.riseK;
  return band === 'typical' ? TYPICAL_C : figures.zoneMinC;
}

/** A conductor of a wire with two terminations; the vehicle's own wires count inside the feed's source resistance. */
export function wireOhm(graph: Graph, id: Id, figures: WireFigures, tempC: number): number {
  const wire = graph.plan.wires[id]!;
  if (wire.owner === 'vehicle') return 1e-4;
  return figures.lengthM * ohmPerM(wire.areaMm2 ?? 1, tempC) + 2 * TERMINATION_OHM.crimp;
}

/** What a part does at a moment, with global names. */
interface Mapped {
  readonly elements: readonly Element[];
  readonly devices: readonly Device[];
}

/** Behaviours already asked for, and what of the situation the part looked at: nothing else can change them. */
interface Memory {
  looked: ReadonlySet<string>;
  readonly entries: Map<string, Mapped>;
}

/** Turns a plan and a moment into elements with global node names. Element count depends on the plan alone. */
export class NetworkMaker {
  private readonly wired = new Map<Id, Set<string>>();
  private readonly chassis: readonly string[];
  /** The zone whose bar the battery's negative post meets when the plan does not show that lead. */
  private readonly batteryBar: string | null;
  private readonly hasBattery: boolean;
  private readonly memory = new Map<Id, Memory>();
  private readonly wireElements = new Map<Band, readonly Element[]>();

  constructor(
    readonly graph: Graph,
    private figures: ReadonlyMap<Id, WireFigures>,
  ) {
    for (const view of graph.views.values()) this.wired.set(view.part.id, new Set());
    for (const w of graph.wires) {
      this.wired.get(w.from.part)?.add(w.from.terminal);
      this.wired.get(w.to.part)?.add(w.to.terminal);
    }
    const zones = Object.values(graph.plan.zones).sort((a, b) => a.order - b.order);
    this.chassis = zones.map((z) => `chassis:${z.id}`);
    const battery = [...graph.views.values()].find((v) => v.kind.kind === 'battery');
    this.hasBattery = battery !== undefined;
    const strapped = battery !== undefined && this.wired.get(battery.part.id)!.has('-');
    this.batteryBar = strapped ? null : battery ? `chassis:${battery.part.zone}` : (this.chassis[0] ?? null);
  }

  /** New lengths or conductor temperatures; the structure stays. */
  setFigures(figures: ReadonlyMap<Id, WireFigures>): void {
    this.figures = figures;
    this.wireElements.clear();
  }

  /** Devices of every part, ids prefixed with `part:`; their probes are handed local names. */
  devices(moment: Moment): Device[] {
    const devices: Device[] = [];
    for (const view of this.graph.views.values()) devices.push(...this.behaviour(view, moment, () => false).devices);
    return devices;
  }

  /** All elements of the plan at a moment, with two-state devices as `on` says. */
  elements(moment: Moment, on: (device: string) => boolean): Element[] {
    const list: Element[] = [];
    const supply = moment.supplyV ?? this.supply(moment.state, moment.band);
    if (!this.hasBattery) list.push({ kind: 'source', id: ':battery', a: 'battery', b: '0', volt: supply, ohm: 0.01 });
    for (let i = 1; i < this.chassis.length; i++) {
      list.push({ kind: 'resistor', id: `:joint${i}`, a: this.chassis[i - 1]!, b: this.chassis[i]!, ohm: BODY_JOINT_OHM });
    }
    if (this.batteryBar) list.push({ kind: 'resistor', id: ':strap', a: this.batteryBar, b: '0', ohm: BODY_JOINT_OHM });
    for (const e of this.wiresOf(moment.band)) list.push(e);
    for (const view of this.graph.views.values()) for (const e of this.behaviour(view, moment, on).elements) list.push(e);
    return list;
  }

  supply(state: VehicleState, band: Band): number {
    const v = this.graph.plan.vehicle;
    return v.supplyV?.[state]?.[band] ?? supplyV(v.systemV, state, v.dipLevel)[band];
  }

  private wiresOf(band: Band): readonly Element[] {
    let list = this.wireElements.get(band);
    if (!list) {
      list = this.makeWires(band);
      this.wireElements.set(band, list);
    }
    return list;
  }

  private makeWires(band: Band): Element[] {
    const list: Element[] = [];
    for (const w of this.graph.wires) {
      const figures = this.figures.get(w.id);
      if (!figures) continue;
      const ohm = wireOhm(this.graph, w.id, figures, wireC(figures, band));
      const a = `${w.from.part}.${w.from.terminal}`;
      const b = `${w.to.part}.${w.to.terminal}`;
      list.push({ kind: 'resistor', id: `wire:${w.id}`, a, b, ohm });
      if (this.graph.indexOf.has(`${a}~0`) && this.graph.indexOf.has(`${b}~0`)) {
        list.push({ kind: 'resistor', id: `wire:${w.id}~0`, a: `${a}~0`, b: `${b}~0`, ohm });
      }
    }
    return list;
  }

  /** A part's behaviour; asked again only when something it looked at has changed. */
  private behaviour(view: PartView, moment: Moment, on: (device: string) => boolean): Mapped {
    const id = view.part.id;
    let memory = this.memory.get(id);
    if (!memory) {
      memory = { looked: new Set(), entries: new Map() };
      this.memory.set(id, memory);
    }
    const situation = this.situation(view, moment, (d) => on(`${id}:${d}`));
    const known = memory.entries.get(keyFor(memory.looked, situation));
    if (known) return known;
    const looked = new Set(memory.looked);
    const behaviour = view.kind.behave(view.s, watched(situation, looked));
    if (looked.size !== memory.looked.size) {
      memory.looked = looked;
      memory.entries.clear();
    }
    const mapped: Mapped = {
      elements: behaviour.elements.map((e) => rename(e, view)),
      devices: (behaviour.devices ?? []).map((d) => renameDevice(d, view)),
    };
    memory.entries.set(keyFor(looked, situation), mapped);
    return mapped;
  }

  private situation(view: PartView, moment: Moment, on: (d: string) => boolean): Situation {
    const wired = this.wired.get(view.part.id)!;
    return {
      state: moment.state,
      band: moment.band,
      vehicle: this.graph.plan.vehicle,
      supplyV: moment.supplyV ?? this.supply(moment.state, moment.band),
      ambientC: moment.band === 'low' ? view.maxC : moment.band === 'typical' ? TYPICAL_C : view.minC,
      live: (line) => isLive(line, moment.state),
      load: moment.load ?? LOAD_OF[moment.band],
      on,
      wired: (t) => wired.has(t),
      pressed: moment.pressed?.has(view.part.id) ?? false,
    };
  }
}

/** The same situation, noting what is looked at: fields by name, lines as `live:15`, devices as `on:coil`. */
function watched(s: Situation, looked: Set<string>): Situation {
  const see = <K extends 'state' | 'band' | 'supplyV' | 'ambientC' | 'load' | 'pressed'>(key: K): Situation[K] => {
    looked.add(key);
    return s[key];
  };
  return {
    get state() {
      return see('state');
    },
    get band() {
      return see('band');
    },
    get supplyV() {
      return see('supplyV');
    },
    get ambientC() {
      return see('ambientC');
    },
    get load() {
      return see('load');
    },
    get pressed() {
      return see('pressed');
    },
    vehicle: s.vehicle,
    wired: s.wired,
    live: (line) => {
      looked.add(`live:${line}`);
      return s.live(line);
    },
    on: (device) => {
      looked.add(`on:${device}`);
      return s.on(device);
    },
  };
}

function keyFor(looked: ReadonlySet<string>, s: Situation): string {
  let key = '';
  for (const what of looked) {
    if (what.startsWith('live:')) key += s.live(what.slice(5) as Line) ? '1' : '0';
    else if (what.startsWith('on:')) key += s.on(what.slice(3)) ? '1' : '0';
    else key += `|${String(s[what as keyof Situation])}|`;
  }
  return key;
}

function renameDevice(d: Device, view: PartView): Device {
  const id = view.part.id;
  return {
    ...d,
    id: `${id}:${d.id}`,
    wants: (probe, on) =>
      d.wants({ volts: (n) => probe.volts(nodeName(view, n)), amps: (e, port) => probe.amps(`${id}:${e}`, port), on: (x) => probe.on(`${id}:${x}`) }, on),
  };
}

function rename(e: Element, view: PartView): Element {
  const id = `${view.part.id}:${e.id}`;
  const n = (x: string): string => nodeName(view, x);
  switch (e.kind) {
    case 'opto':
      return { ...e, id, a: n(e.a), k: n(e.k), c: n(e.c), e: n(e.e) };
    case 'stepdown':
    case 'linear':
      return { ...e, id, in: n(e.in), gnd: n(e.gnd), out: n(e.out) };
    default:
      return { ...e, id, a: n(e.a), b: n(e.b) };
  }
}
