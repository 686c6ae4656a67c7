import type { Facts, PartView, Step } from '../analysis/factsTypes.ts';
import { CONTACT } from '../parts/contacts.ts';
import { gather } from '../plan/gather.ts';
import { TERMINATION_OHM } from '../trade/conductors.ts';
import { coldOhm, meltI2t, SURGE_SHARE } from '../trade/fuses.ts';
import { vehicleRail, type Way } from './rails.ts';
import { storesOf } from './storeHold.ts';
import { hopsOf, isResistor, netAt } from './trace.ts';

/** Smaller capacitors are full before a contact has stopped bouncing, F (common practice, no source). */
const LEAST_F = 47e-6;
/** No loop has less resistance than this, ohm (common practice, no source). */
const FLOOR_OHM = 0.05;

/** Contacts that close onto a capacitor: terminals of the contact, what it makes as a multiple of its rating, and that rating's setting. */
export const CLOSERS: Readonly<
  Record<string, { readonly ends: readonly [string, string]; readonly times: number; readonly setting: string; readonly contactOhm: number }>
> = {
  relay: { ends: ['30', '87'], times: 10, setting: 'contactA', contactOhm: CONTACT.relay.ohm },
  'delay-off-relay': { ends: ['30', '87'], times: 10, setting: 'contactA', contactOhm: CONTACT.relay.ohm },
  'master-switch': { ends: ['1', '2'], times: 3, setting: 'dcA', contactOhm: CONTACT.rocker.ohm },
};

/** The surge through one contact when it closes onto empty capacitors. */
export interface Surge {
  readonly contact: PartView;
  readonly capacitors: readonly PartView[];
  readonly farad: number;
  readonly loopOhm: number;
  /** Volts that drive it: what is left where the capacitors were filled before. */
  readonly volt: number;
  readonly peakA: number;
  /** What the contact may make, A. */
  readonly makeA: number;
  /** Where the way goes on behind the contact. */
  readonly outTerminal: string;
}

/** Every contact between the vehicle's supply and capacitors of some size. */
export function surges(facts: Facts): Surge[] {
  const behind = new Map<PartView, Behind[number][]>();
  for (const { cap, way } of filled(facts)) {
    way.steps.forEach((step, at) => {
      if (step.linkType !== 'contact' || !step.through || !CLOSERS[step.through.kind.kind]) return;
      gather(behind, step.through, { cap, way, at });
    });
  }
  return [...behind].map(([contact, list]) => surgeOf(facts, contact, list));
}

/** Capacitors of some size that the vehicle fills, stores apart: those have their own limiter to be judged by. */
function filled(facts: Facts): { readonly cap: PartView; readonly way: Way }[] {
  const rail = vehicleRail(facts);
  return facts.ofKind('capacitor', 'store').flatMap((cap) => {
    const way = rail.get(`${cap.part.id}.+`);
    return way && faradOf(cap) >= LEAST_F && !storesOf(facts).includes(cap) ? [{ cap, way }] : [];
  });
}

function faradOf(cap: PartView): number {
  return cap.kind.kind === 'capacitor' ? cap.s.num('farad') : 0;
}

type Behind = readonly { readonly cap: PartView; readonly way: Way; readonly at: number }[];

function surgeOf(facts: Facts, contact: PartView, list: Behind): Surge {
  const { ends, times, setting } = CLOSERS[contact.kind.kind]!;
  const first = list[0]!;
  const loopOhm = loopOf(facts, list, contact);
  const outTerminal = first.way.steps[first.at]!.at.split('.')[1]!;
  const volt = bridge(facts, contact) === null ? facts.corners.chargeV : leftV(facts, contact, outTerminal);
  return {
    contact,
    capacitors: list.map((l) => l.cap),
    farad: list.reduce((total, l) => total + faradOf(l.cap), 0),
    loopOhm,
    volt,
    peakA: volt / loopOhm,
    makeA: times * contact.s.num(setting),
    outTerminal: ends.includes(outTerminal) ? outTerminal : ends[1],
  };
}

/** Cold resistance of the whole loop that fills capacitors side by side, ohm. */
function loopOf(facts: Facts, list: Behind, judged: PartView | null): number {
  const shared = sharedSteps(list.map((l) => l.way.steps));
  const sum = (steps: readonly Step[]): number => steps.reduce((total, s) => total + stepOhm(facts, s, judged), 0);
  const branches = list.reduce(
    (siemens, { cap, way }) => siemens + 1 / Math.max(1e-3, sum(way.steps.slice(shared)) + cap.s.num('esrOhm') + returnOhm(facts, cap)),
    0,
  );
  const first = list[0]!.way;
  return Math.max(FLOOR_OHM, first.tap.source.minOhm + sum(first.steps.slice(0, shared)) + 1 / branches);
}

/** What fills empty capacitors through one fuse. */
export interface Filling {
  readonly fuse: PartView;
  readonly capacitors: readonly PartView[];
  readonly farad: number;
  readonly loopOhm: number;
  /** I2t of one filling from empty, A2s: V2 C / 2 R. */
  readonly i2t: number;
  /** Filled at each switching on; else once only, when the fuse is put in. */
  readonly often: boolean;
}

/** Every fuse between the vehicle's supply and capacitors of some size. */
export function fillings(facts: Facts): Filling[] {
  const behind = new Map<PartView, Behind[number][]>();
  for (const { cap, way } of filled(facts)) {
    way.steps.forEach((step, at) => {
      if (step.linkType !== 'fuse' || !step.through) return;
      gather(behind, step.through, { cap, way, at });
    });
  }
  return [...behind].map(([fuse, list]) => {
    const loopOhm = loopOf(facts, list, null);
    const farad = list.reduce((total, l) => total + faradOf(l.cap), 0);
    const often = list.some(({ way }) => (way.tap.source.line ?? '30') !== '30' || way.steps.some((s) => s.linkType === 'contact'));
    return { fuse, capacitors: list.map((l) => l.cap), farad, loopOhm, i2t: fillingI2t(facts, farad, loopOhm), often };
  });
}

/** I2t of filling a capacitor from empty while the vehicle charges, A2s: the integral of (V/R)2 exp(-2t/RC). */
export function fillingI2t(facts: Facts, farad: number, loopOhm: number): number {
  return (facts.corners.chargeV ** 2 * farad) / (2 * loopOhm);
}

/** What one filling may use of a fuse, A2s. */
export function mayUse(ratingA: number, often: boolean): number {
  return (often ? SURGE_SHARE : 1) * meltI2t(ratingA);
}

/** Would a fuse of another rating in the place of this one stand what fills through it? */
export function standsFilling(facts: Facts, fuse: PartView, ratingA: number): boolean {
  const f = fillings(facts).find((x) => x.fuse === fuse);
  return f === undefined || fillingI2t(facts, f.farad, f.loopOhm + coldOhm(ratingA) - coldOhm(fuse.s.num('ratingA'))) <= mayUse(ratingA, f.often);
}

/** Steps that all ways have in common from the start. */
function sharedSteps(ways: readonly (readonly Step[])[]): number {
  const first = ways[0]!;
  let n = 0;
  while (n < first.length && ways.every((w) => w[n]?.wire === first[n]!.wire && w[n]?.through === first[n]!.through)) n++;
  return n;
}

/** Cold resistance of one step; a contact that a resistor bridges lets the surge pass through that resistor, for it closes later. */
function stepOhm(facts: Facts, step: Step, judged: PartView | null): number {
  if (step.wire) return (facts.analysis.wires[step.wire.id]?.coldOhm ?? 0) + 2 * TERMINATION_OHM.crimp;
  const view = step.through;
  if (!view) return 0;
  if (step.linkType === 'fuse') return coldOhm(view.s.num('ratingA'));
  if (step.linkType === 'contact') return (view === judged ? null : bridge(facts, view)) ?? CLOSERS[view.kind.kind]?.contactOhm ?? CONTACT.relay.ohm;
  return view.facts.links?.find((l) => l.type === step.linkType)?.ohm ?? 0;
}

/** Resistance of what lies across a contact, ohm; null when nothing does. */
export function bridge(facts: Facts, contact: PartView): number | null {
  const [a, b] = CLOSERS[contact.kind.kind]?.ends ?? ['30', '87'];
  const to = netAt(facts, contact, b);
  const hop = (hopsOf(facts).get(netAt(facts, contact, a)) ?? []).find((h) => h.to === to && isResistor(h));
  return hop ? hop.ohm : null;
}

/** Volts across a bridged contact when it closes: a relay whose coil hangs on the filled side waits for its pull-in voltage. */
function leftV(facts: Facts, contact: PartView, outTerminal: string): number {
  const { chargeV } = facts.corners;
  if (contact.kind.kind !== 'relay') return 0;
  const out = netAt(facts, contact, outTerminal);
  const waits = netAt(facts, contact, '86') === out || netAt(facts, contact, '85') === out;
  return waits ? Math.max(0, chargeV - EARLIEST * contact.s.num('pullInV')) : chargeV;
}

/** A relay pulls in at this share of its printed pull-in voltage at the earliest (common practice, no source). */
const EARLIEST = 0.7;

/** From a capacitor's minus side to the body or the battery, ohm. */
function returnOhm(facts: Facts, cap: PartView): number {
  for (const [key, steps] of facts.reach(`${cap.part.id}.-`, [])) {
    const kind = facts.at(key)?.view.kind.kind;
    if (kind === 'chassis-ground' || kind === 'battery')
      return steps.reduce((sum, s) => sum + (s.wire ? (facts.analysis.wires[s.wire.id]?.coldOhm ?? 0) + 2 * TERMINATION_OHM.crimp : 0), 0);
  }
  return 0;
}
