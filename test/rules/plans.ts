import { emptyPlan } from '../../src/plan/new.ts';
import { addPart, removeItems, setSettings } from '../../src/plan/partEdits.ts';
import type { NewPart } from '../../src/plan/rows.ts';
import type { End, Id, Plan, Value, Vehicle, Wire, Zone } from '../../src/plan/types.ts';
import { addWire, setWire, splitWire, type WirePatch } from '../../src/plan/wireEdits.ts';
import { applyOrThrow } from './applied.ts';

/** The zones of every test plan. */
export const ZONE = { bay: 'z1', dash: 'z2', seat: 'z3', desk: 'z4' } as const;
type ZoneName = keyof typeof ZONE;

/**
 * A plan under construction that calls its parts and wires by short names. Every method changes the plan in place of
 * the last and hands itself back, so that a test reads as one sentence: `bench().set('fuse', { ratingA: 15 }).plan`.
 */
export class Bench {
  plan: Plan;
  private readonly parts = new Map<string, Id>();
  private readonly wires = new Map<string, Id>();

  constructor(title: string, vehicle: Partial<Vehicle> = {}) {
    this.plan = emptyPlan(title, { centralClamping: 'yes', batteryAh: 90, parkedA: 0.035, ...vehicle }, `test-${title}`);
  }

  /** Id of a part by its short name. */
  id(name: string): Id {
    const id = this.parts.get(name);
    if (id === undefined) throw new Error(`no part "${name}" on the bench`);
    return id;
  }

  /** Id of a wire by its short name, else by its ends as they were drawn: `fuse.2>relay.30`. */
  wireId(name: string): Id {
    const id = this.wires.get(name);
    if (id === undefined) throw new Error(`no wire "${name}" on the bench`);
    return id;
  }

  /** A new part under a short name. */
  part(name: string, kind: string, zone: ZoneName, settings: Readonly<Record<string, Value>> = {}, more: Partial<NewPart> = {}): this {
    const n = this.parts.size;
    const added = addPart(this.plan, { kind, zone: ZONE[zone], x: 20 + (n % 4) * 160, y: 20 + Math.floor(n / 4) * 120, settings, name, ...more });
    this.parts.set(name, added.id);
    return this.take(added.edit);
  }

  /** A wire between two terminals, `fuse.2` to `relay.30`; it is called by `name`, or by its ends. */
  wire(from: string, to: string, extras: Partial<Omit<Wire, 'id' | 'from' | 'to'>> = {}, name = `${from}>${to}`): this {
    const added = addWire(this.plan, this.end(from), this.end(to), extras);
    this.wires.set(name, added.id);
    return this.take(added.edit);
  }

  /** Types settings of a part; `undefined` frees one. */
  set(name: string, settings: Readonly<Record<string, Value | undefined>>): this {
    return this.take(setSettings(this.plan, this.id(name), settings));
  }

  /** Types what a wire carries; `undefined` frees it. */
  wireSet(name: string, patch: WirePatch): this {
    return this.take(setWire(this.plan, this.wireId(name), patch));
  }

  /** Takes a part away with its wires. */
  without(...names: string[]): this {
    return this.take(
      removeItems(
        this.plan,
        names.map((n) => this.id(n)),
      ),
    );
  }

  /** Takes wires away. */
  cut(...names: string[]): this {
    return this.take(
      removeItems(
        this.plan,
        [],
        names.map((n) => this.wireId(n)),
      ),
    );
  }

  /** Cuts a new part into a wire; its pieces are called `name<` (towards the wire's start) and `name>`. */
  into(wire: string, name: string, kind: string, [inTerminal, outTerminal]: readonly [string, string], settings: Readonly<Record<string, Value>> = {}): this {
    const row = this.plan.wires[this.wireId(wire)]!;
    const zone = this.plan.parts[row.from.part]!.zone;
    const cut = splitWire(this.plan, row.id, { kind, zone, x: 300, y: 300, settings, name }, inTerminal, outTerminal);
    this.parts.set(name, cut.id);
    this.wires.set(`${name}<`, cut.wires[0]);
    this.wires.set(`${name}>`, cut.wires[1]);
    this.wires.delete(wire);
    return this.take(cut.edit);
  }

  vehicle(patch: Partial<Vehicle>): this {
    this.plan = { ...this.plan, vehicle: { ...this.plan.vehicle, ...patch } };
    return this;
  }

  zone(name: ZoneName, patch: Partial<Omit<Zone, 'id'>>): this {
    const id = ZONE[name];
    this.plan = { ...this.plan, zones: { ...this.plan.zones, [id]: { ...this.plan.zones[id]!, ...patch } } };
    return this;
  }

  threshold(key: string, value: number): this {
    this.plan = { ...this.plan, thresholds: { ...this.plan.thresholds, [key]: value } };
    return this;
  }

  private end(at: string): End {
    const dot = at.indexOf('.');
    return { part: this.id(at.slice(0, dot)), terminal: at.slice(dot + 1) };
  }

  private take(edit: Parameters<typeof applyOrThrow>[1]): this {
    this.plan = applyOrThrow(this.plan, edit);
    return this;
  }
}

/** Battery with its strap, and the radio ground: what every plan stands on. */
export function ground(title = 'ground', vehicle: Partial<Vehicle> = {}): Bench {
  return new Bench(title, vehicle)
    .part('battery', 'battery', 'bay', {}, { owner: 'vehicle' })
    .part('strap', 'chassis-ground', 'bay', { place: 'body-stud' }, { owner: 'vehicle' })
    .part('ground', 'chassis-ground', 'dash', { place: 'radio-ground' })
    .wire('battery.-', 'strap.31', { owner: 'vehicle', lengthM: 0.3 }, 'strap');
}

/** `ground` and a permanent feed with a 5 A fuse at the tap; the fused side is `fuse.2`. */
export function fused(title = 'fused', vehicle: Partial<Vehicle> = {}): Bench {
  return ground(title, vehicle)
    .part('feed30', 'feed-30', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('fuse', 'blade-fuse', 'dash')
    .wire('battery.+', 'feed30.in', { owner: 'vehicle' }, 'lead30')
    .wire('feed30.out', 'fuse.1', { lengthM: 0.12 }, 'tap');
}

/**
 * A small clean 12 V plan: permanent and ignition feeds with fuses at the taps, hold relay, both-ways clamp, reverse guard,
 * bulk capacitor, step-down converter, computer on header pins 2, 4 and 6, 9, 14, and a key sensor on GPIO 16.
 *
 * Parts: battery strap ground feed30 feed15 fuse senseFuse relay clamp guard bulk converter computer sense opto reverse pull.
 * Wires: lead30 lead15 strap tap feed out toGuard toConverter clamp+ clamp- bulk+ bulk- guard- relay- return five four
 * zero6 zero9 zero14 tap15 trigger sense led led- reverse+ reverse- pin pull+ pull- emitter.
 */
export function bench(title = 'bench', vehicle: Partial<Vehicle> = {}): Bench {
  return fused(title, vehicle)
    .part('feed15', 'feed-15', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('senseFuse', 'blade-fuse', 'dash')
    .part('relay', 'delay-off-relay', 'seat')
    .part('clamp', 'surge-clamp', 'seat', { bidirectional: true })
    .part('guard', 'reverse-guard', 'seat', { reverseV: 100 })
    .part('bulk', 'capacitor', 'seat')
    .part('converter', 'step-down', 'seat')
    .part('computer', 'computer', 'seat')
    .part('sense', 'resistor', 'dash')
    .part('opto', 'optocoupler', 'seat')
    .part('reverse', 'diode', 'seat', { type: '1n4148' })
    .part('pull', 'resistor', 'seat', { ohm: 10_000 })
    .wire('battery.+', 'feed15.in', { owner: 'vehicle' }, 'lead15')
    .wire('fuse.2', 'relay.30', { lengthM: 2.1 }, 'feed')
    .wire('relay.87', 'guard.in', { lengthM: 0.2 }, 'out')
    .wire('clamp.K', 'guard.in', { lengthM: 0.1 }, 'clamp+')
    .wire('clamp.A', 'converter.gnd', { lengthM: 0.1 }, 'clamp-')
    .wire('guard.out', 'converter.in', { lengthM: 0.1 }, 'toConverter')
    .wire('guard.gnd', 'converter.gnd', { lengthM: 0.1 }, 'guard-')
    .wire('bulk.+', 'converter.in', { lengthM: 0.1 }, 'bulk+')
    .wire('bulk.-', 'converter.gnd', { lengthM: 0.1 }, 'bulk-')
    .wire('relay.31', 'converter.gnd', { lengthM: 0.3 }, 'relay-')
    .wire('converter.gnd', 'ground.31', { lengthM: 2.2 }, 'return')
    .wire('converter.out', 'computer.2', { lengthM: 0.25, areaMm2: 1.5 }, 'five')
    .wire('converter.out', 'computer.4', { lengthM: 0.25, areaMm2: 1.5 }, 'four')
    .wire('converter.0v', 'computer.6', { lengthM: 0.25, areaMm2: 1.5 }, 'zero6')
    .wire('converter.0v', 'computer.9', { lengthM: 0.25, areaMm2: 1.5 }, 'zero9')
    .wire('converter.0v', 'computer.14', { lengthM: 0.25, areaMm2: 1.5 }, 'zero14')
    .wire('feed15.out', 'senseFuse.1', { lengthM: 0.12 }, 'tap15')
    .wire('senseFuse.2', 'relay.15', { lengthM: 2.3 }, 'trigger')
    .wire('senseFuse.2', 'sense.1', { lengthM: 0.05 }, 'sense')
    .wire('sense.2', 'opto.A', { lengthM: 2.3 }, 'led')
    .wire('opto.K', 'ground.31', { lengthM: 2.3, areaMm2: 0.5 }, 'led-')
    .wire('reverse.K', 'opto.A', { lengthM: 0.05 }, 'reverse+')
    .wire('reverse.A', 'opto.K', { lengthM: 0.05 }, 'reverse-')
    .wire('opto.C', 'computer.36', { lengthM: 0.2 }, 'pin')
    .wire('pull.1', 'opto.C', { lengthM: 0.05 }, 'pull+')
    .wire('pull.2', 'computer.1', { lengthM: 0.2 }, 'pull-')
    .wire('opto.E', 'computer.34', { lengthM: 0.2 }, 'emitter');
}

/** Plans that together with the demo hold something for every rule to look at; they need not be in order. */
export function allKinds(): Bench[] {
  const linear = fused('linear')
    .part('regulator', 'linear-regulator', 'seat')
    .part('display', 'touch-display', 'seat', { typA: 0.06, peakA: 0.06 })
    .wire('fuse.2', 'regulator.in', { lengthM: 2 })
    .wire('regulator.gnd', 'ground.31', { lengthM: 2 })
    .wire('regulator.out', 'display.5v', { lengthM: 0.2 })
    .wire('display.0v', 'regulator.gnd', { lengthM: 0.2 })
    .part('lampR', 'resistor', 'seat', { ohm: 470 })
    .part('lamp', 'led', 'seat')
    .wire('regulator.out', 'lampR.1', { lengthM: 0.2 })
    .wire('lampR.2', 'lamp.A', { lengthM: 0.1 })
    .wire('lamp.K', 'regulator.gnd', { lengthM: 0.2 });
  return [linear];
}
