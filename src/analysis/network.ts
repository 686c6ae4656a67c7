import type { Element } from '../circuit/types.ts';
import type { Situation } from '../parts/types.ts';
import type { Band, Id, Part, Vehicle, VehicleState } from '../plan/types.ts';
import { BODY_JOINT_OHM, ohmPerM, TERMINATION_OHM } from '../trade/conductors.ts';
import { isLive } from '../trade/lines.ts';
import { supplyV } from '../trade/supply.ts';
import { PartBehaviour } from './behaviours.ts';
import type { PartView } from './factsTypes.ts';
import type { Graph } from './graph.ts';
import { Instant } from './instant.ts';
import { bySerial } from './views.ts';

export type { Instant } from './instant.ts';

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

/** Turns a plan into the network of each moment. Which elements there are depends on the plan alone. */
export class NetworkMaker {
  private readonly wired = new Map<Id, Set<string>>();
  private readonly chassis: readonly string[];
  /** The zone whose bar the battery's negative post meets when the plan does not show that lead. */
  private readonly batteryBar: string | null;
  private readonly hasBattery: boolean;
  private readonly parts: readonly { readonly view: PartView; readonly behaviour: PartBehaviour }[];
  private joints: readonly Element[] | null = null;
  private readonly wireElements = new Map<Band, readonly Element[]>();
  private readonly instants = new Map<string, Instant>();

  constructor(
    readonly graph: Graph,
    private readonly figures: ReadonlyMap<Id, WireFigures>,
  ) {
    for (const view of graph.views.values()) this.wired.set(view.part.id, new Set());
    for (const w of graph.wires) {
      this.wired.get(w.from.part)?.add(w.from.terminal);
      this.wired.get(w.to.part)?.add(w.to.terminal);
    }
    const zones = Object.values(graph.plan.zones).sort((a, b) => a.order - b.order || bySerial(a, b));
    this.chassis = zones.map((z) => `chassis:${z.id}`);
    this.parts = [...graph.views.values()].map((view) => ({ view, behaviour: behaviourOf(view, this.wired.get(view.part.id)!, graph.plan.vehicle) }));
    const battery = this.parts.find(({ view }) => view.kind.kind === 'battery')?.view;
    this.hasBattery = battery !== undefined;
    const strapped = battery !== undefined && this.wired.get(battery.part.id)!.has('-');
    this.batteryBar = strapped ? null : battery ? `chassis:${battery.part.zone}` : (this.chassis[0] ?? null);
  }

  /** The network of a moment; asked twice for the same, it is the same. */
  at(moment: Moment): Instant {
    const key = `${moment.state}|${moment.band}|${moment.supplyV ?? ''}|${moment.load ?? ''}|${[...(moment.pressed ?? [])].sort().join()}`;
    let instant = this.instants.get(key);
    if (!instant) {
      instant = new Instant(this.common(moment), this.parts, this.situations(moment));
      this.instants.set(key, instant);
    }
    return instant;
  }

  supply(state: VehicleState, band: Band): number {
    const v = this.graph.plan.vehicle;
    return v.supplyV?.[state]?.[band] ?? supplyV(v.systemV, state, v.dipLevel)[band];
  }

  /** Elements that belong to no part: battery and strap where the plan has none, body joints, wires. */
  private common(moment: Moment): readonly Element[] {
    const fixed = this.wiresOf(moment.band);
    if (this.hasBattery) return fixed;
    const supply = moment.supplyV ?? this.supply(moment.state, moment.band);
    return [{ kind: 'source', id: ':battery', a: 'battery', b: '0', volt: supply, ohm: 0.01 }, ...fixed];
  }

  private bodyJoints(): Element[] {
    const list: Element[] = [];
    for (let i = 1; i < this.chassis.length; i++) {
      list.push({ kind: 'resistor', id: `:joint${i}`, a: this.chassis[i - 1]!, b: this.chassis[i]!, ohm: BODY_JOINT_OHM });
    }
    if (this.batteryBar) list.push({ kind: 'resistor', id: ':strap', a: this.batteryBar, b: '0', ohm: BODY_JOINT_OHM });
    return list;
  }

  private wiresOf(band: Band): readonly Element[] {
    let list = this.wireElements.get(band);
    if (!list) {
      this.joints ??= this.bodyJoints();
      list = [...this.joints, ...this.makeWires(band)];
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
      list.push({ kind: 'resistor', id: wireElement(w.id), a, b, ohm });
      if (this.graph.indexOf.has(`${a}~0`) && this.graph.indexOf.has(`${b}~0`)) {
        list.push({ kind: 'resistor', id: `${wireElement(w.id)}~0`, a: `${a}~0`, b: `${b}~0`, ohm });
      }
    }
    return list;
  }

  /** What each part finds itself in at a moment. */
  private situations(moment: Moment): (view: PartView) => Omit<Situation, 'on'> {
    const { state, band, pressed } = moment;
    const { vehicle } = this.graph.plan;
    const volt = moment.supplyV ?? this.supply(state, band);
    const load = moment.load ?? LOAD_OF[band];
    const live: Situation['live'] = (line) => isLive(line, state);
    return (view) => {
      const wired = this.wired.get(view.part.id)!;
      return {
        state,
        band,
        vehicle,
        supplyV: volt,
        ambientC: band === 'low' ? view.maxC : band === 'typical' ? TYPICAL_C : view.minC,
        live,
        load,
        wired: (t) => wired.has(t),
        pressed: pressed?.has(view.part.id) ?? false,
      };
    };
  }
}

/** Kept for a part by identity, as long as the same of its terminals are wired in the same vehicle. */
const kept = new WeakMap<Part, { readonly wired: string; readonly vehicle: Vehicle; readonly behaviour: PartBehaviour }>();

function behaviourOf(view: PartView, terminals: ReadonlySet<string>, vehicle: Vehicle): PartBehaviour {
  const wired = [...terminals].sort().join();
  const found = kept.get(view.part);
  if (found && found.wired === wired && found.vehicle === vehicle) return found.behaviour;
  const behaviour = new PartBehaviour(view);
  kept.set(view.part, { wired, vehicle, behaviour });
  return behaviour;
}

/** Id of the element that stands for a wire; no part's element has a name like it. */
export function wireElement(id: Id): string {
  return `~${id}`;
}
