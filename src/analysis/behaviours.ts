import type { Device, Element, Probe, Tolerances } from '../circuit/types.ts';
import type { Situation } from '../parts/types.ts';
import type { Line } from '../plan/types.ts';
import type { PartView } from './factsTypes.ts';
import { nodeName } from './graph.ts';
import { memo } from './memo.ts';

/** What a part does in a situation, with global names. */
export interface Mapped {
  readonly elements: readonly Element[];
  readonly devices: readonly Device[];
}

type Field = 'state' | 'band' | 'supplyV' | 'ambientC' | 'load' | 'pressed';

type AtMoment = Omit<Situation, 'on'>;

/** Enough for every state and band in which a part is asked; beyond it the plan has changed more often than is worth keeping. */
const MOST_MOMENTS = 200;

/**
 * The behaviours of one part, asked again only when something that the part looked at has changed. A part must look at
 * all it needs when it is asked, not later when its devices are.
 */
export class PartBehaviour {
  private readonly fields = new Set<Field>();
  private readonly lines = new Set<Line>();
  /** Own devices looked at, by their global ids. */
  private readonly ons: string[] = [];
  private readonly known = new Map<string, Map<number, Mapped>>();
  /** Elements handed out so far, by their place among the part's: one with the same figures is handed out again. */
  private readonly handed: Element[][] = [];
  /** The behaviour when the part was seen to look at nothing: it is always the same. */
  constant: Mapped | null = null;
  /** At how many things the part has been seen to look; what was asked for before it grew is asked for again. */
  looks = 0;

  constructor(private readonly view: PartView) {}

  /** Does it depend on the states of its own devices, as far as it has been seen? */
  get switches(): boolean {
    return this.ons.length > 0;
  }

  /** The states of its own devices that it looks at, as one number. */
  switchKey(on: (device: string) => boolean): number {
    let key = 1;
    for (let i = 0; i < this.ons.length; i++) key = 2 * key + (on(this.ons[i]!) ? 1 : 0);
    return key;
  }

  /** What has been asked for in a moment, by switch key. */
  moment(s: AtMoment): Map<number, Mapped> {
    let key = '';
    for (const field of this.fields) key += `${s[field]}|`;
    for (const line of this.lines) key += s.live(line) ? '1' : '0';
    let found = this.known.get(key);
    if (!found) {
      if (this.known.size >= MOST_MOMENTS) {
        this.known.clear();
        this.handed.length = 0;
      }
      found = new Map();
      this.known.set(key, found);
    }
    return found;
  }

  /** @param on states of devices by their global ids */
  at(s: AtMoment, on: (device: string) => boolean): Mapped {
    const found = this.moment(s).get(this.switchKey(on));
    if (found) return found;
    const { id } = this.view.part;
    const behaviour = this.view.kind.behave(
      this.view.s,
      this.watched(s, (device) => {
        const full = `${id}:${device}`;
        if (!this.ons.includes(full)) this.ons.push(full);
        return on(full);
      }),
    );
    const looks = this.fields.size + this.lines.size + this.ons.length;
    // A key that says more than those before it would be mistaken for one of them.
    if (looks > this.looks) this.known.clear();
    this.looks = looks;
    const mapped: Mapped = {
      elements: behaviour.elements.map((e, place) => this.alike(rename(e, this.view), place)),
      devices: (behaviour.devices ?? []).map((d) => renameDevice(d, this.view)),
    };
    this.moment(s).set(this.switchKey(on), mapped);
    this.constant = looks === 0 ? mapped : null;
    return mapped;
  }

  /** An element with these figures: the one that was handed out before if there is one, so that who has it need not look. */
  private alike(e: Element, place: number): Element {
    const handed = this.handed[place] ?? [];
    this.handed[place] = handed;
    const same = handed.find((x) => isSame(x, e));
    if (!same) handed.push(e);
    return same ?? e;
  }

  /** The same situation, noting what is looked at. */
  private watched(s: AtMoment, on: Situation['on']): Situation {
    const see = <K extends Field>(key: K): AtMoment[K] => {
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
      on,
    };
  }
}

/** Same figures throughout; a curve must be the very same. */
function isSame(a: Element, b: Element): boolean {
  const x = a as unknown as Readonly<Record<string, unknown>>;
  const y = b as unknown as Readonly<Record<string, unknown>>;
  for (const key in x) if (x[key] !== y[key] && !(key === 'tol' && isSameTolerance(a.tol, b.tol))) return false;
  return Object.keys(x).length === Object.keys(y).length;
}

function isSameTolerance(a: Tolerances = {}, b: Tolerances = {}): boolean {
  const ends = (t: Tolerances[string] | undefined): string => String(t);
  return Object.keys({ ...a, ...b }).every((key) => ends(a[key]) === ends(b[key]));
}

function renameDevice(d: Device, view: PartView): Device {
  const { id } = view.part;
  // A device asks by the same few names again and again.
  const node = memo((n: string) => nodeName(view, n));
  const own = memo((x: string) => `${id}:${x}`);
  let asked: Probe;
  const local: Probe = { volts: (n) => asked.volts(node(n)), amps: (e, port) => asked.amps(own(e), port), on: (x) => asked.on(own(x)) };
  return {
    ...d,
    id: own(d.id),
    wants: (probe, on) => {
      asked = probe;
      return d.wants(local, on);
    },
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
