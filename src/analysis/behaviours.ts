import type { Device, Element } from '../circuit/types.ts';
import type { Situation } from '../parts/types.ts';
import type { Line } from '../plan/types.ts';
import type { PartView } from './factsTypes.ts';
import { nodeName } from './graph.ts';

/** What a part does in a situation, with global names. */
export interface Mapped {
  readonly elements: readonly Element[];
  readonly devices: readonly Device[];
}

type Field = 'state' | 'band' | 'supplyV' | 'ambientC' | 'load' | 'pressed';

/**
 * The behaviours of one part, asked again only when something that the part looked at has changed. A part must look at
 * all it needs when it is asked, not later when its devices are.
 */
export class PartBehaviour {
  private readonly fields = new Set<Field>();
  private readonly lines = new Set<Line>();
  /** Own devices looked at, by local id. */
  private readonly ons = new Set<string>();
  private readonly known = new Map<string, Mapped>();
  private always: Mapped | null = null;

  constructor(private readonly view: PartView) {}

  /** Does it depend on the states of its own devices, as far as it has been seen? */
  get switches(): boolean {
    return this.ons.size > 0;
  }

  /** What distinguishes a moment for this part, device states apart. */
  private momentKey(s: Omit<Situation, 'on'>): string {
    let key = '';
    for (const field of this.fields) key += `${s[field]}|`;
    for (const line of this.lines) key += s.live(line) ? '1' : '0';
    return key;
  }

  /** The states of its own devices that it looks at. */
  switchKey(on: (localDevice: string) => boolean): string {
    let key = '';
    for (const device of this.ons) key += on(device) ? '1' : '0';
    return key;
  }

  /** The behaviour when the part was seen to look at nothing: it is always the same. */
  get constant(): Mapped | null {
    return this.always;
  }

  at(moment: Omit<Situation, 'on'>, on: Situation['on']): Mapped {
    const found = this.known.get(`${this.momentKey(moment)}/${this.switchKey(on)}`);
    if (found) return found;
    const before = this.looks;
    const behaviour = this.view.kind.behave(this.view.s, this.watched(moment, on));
    // A key that says more than those before it would be mistaken for one of them.
    if (this.looks > before) this.known.clear();
    const mapped: Mapped = {
      elements: behaviour.elements.map((e) => rename(e, this.view)),
      devices: (behaviour.devices ?? []).map((d) => renameDevice(d, this.view)),
    };
    this.known.set(`${this.momentKey(moment)}/${this.switchKey(on)}`, mapped);
    this.always = this.looks === 0 ? mapped : null;
    return mapped;
  }

  private get looks(): number {
    return this.fields.size + this.lines.size + this.ons.size;
  }

  /** The same situation, noting what is looked at. */
  private watched(s: Omit<Situation, 'on'>, on: Situation['on']): Situation {
    const see = <K extends Field>(key: K): Omit<Situation, 'on'>[K] => {
      this.fields.add(key);
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
        this.lines.add(line);
        return s.live(line);
      },
      on: (device) => {
        this.ons.add(device);
        return on(device);
      },
    };
  }
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
