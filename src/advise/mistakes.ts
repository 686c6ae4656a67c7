import { extentOf, freeSpot } from '../parts/spot.ts';
import { Draft } from '../plan/draft.ts';
import type { Edit, Part, Plan, Wire } from '../plan/types.ts';
import { gpioPin } from '../trade/header.ts';
import { MISTAKE_WORDS, type MistakeWords } from './mistakeWords.ts';

/** A mistake to try on the demo: what it does, and what to look at. */
export interface Mistake extends MistakeWords {
  /** Null when the demo has been changed so far that the mistake no longer fits. */
  edit(plan: Plan): Edit | null;
}

const EDITS: Readonly<Record<(typeof MISTAKE_WORDS)[number]['id'], Mistake['edit']>> = {
  'fuse-at-the-far-end': (plan) => {
    const fuse = named(plan, 'blade-fuse', 'Supply fuse');
    const relay = named(plan, 'delay-off-relay');
    const near = fuse && wireBetween(plan, fuse, '1');
    const far = fuse && wireBetween(plan, fuse, '2');
    if (!fuse || !relay || !near || !far) return null;
    return edit(plan, 'Try: fuse at the far end', (draft) => {
      draft.setPart({ ...fuse, zone: relay.zone, ...freeIn(plan, relay.zone, fuse) });
      draft.setWire({ ...near, lengthM: 2.1 });
      draft.setWire({ ...far, lengthM: 0.12 });
    });
  },
  'fifteen-amp-fuse': (plan) => {
    const fuse = named(plan, 'blade-fuse', 'Supply fuse');
    return fuse && edit(plan, 'Try: 15 A fuse', (draft) => draft.setPart({ ...fuse, settings: { ...fuse.settings, ratingA: 15 } }));
  },
  'thin-feed': (plan) => {
    const fuse = named(plan, 'blade-fuse', 'Supply fuse');
    const converter = named(plan, 'step-down');
    const feed = fuse && wireBetween(plan, fuse, '2');
    const back = converter && Object.values(plan.wires).find((w) => joins(w, converter, 'gnd') && isGround(plan, w));
    if (!feed || !back) return null;
    return edit(plan, 'Try: thin feed', (draft) => {
      draft.setWire({ ...feed, areaMm2: 0.35 });
      draft.setWire({ ...back, areaMm2: 0.35 });
    });
  },
  'no-hold-relay': (plan) => {
    const relay = named(plan, 'delay-off-relay');
    const ignition = named(plan, 'feed-15');
    const fuse = named(plan, 'blade-fuse', 'Supply fuse');
    const tap = fuse && wireBetween(plan, fuse, '1');
    const feed = fuse && wireBetween(plan, fuse, '2');
    const held = relay && wireBetween(plan, relay, '87');
    if (!relay || !ignition || !fuse || !tap || !feed || !held) return null;
    const behind = held.from.part === relay.id ? held.to : held.from;
    return edit(plan, 'Try: no hold relay', (draft) => {
      for (const w of Object.values(plan.wires)) if (w.from.part === relay.id || w.to.part === relay.id) draft.removeWire(w.id);
      draft.removePart(relay.id);
      draft.setWire({ ...tap, from: { part: ignition.id, terminal: 'out' }, to: { part: fuse.id, terminal: '1' } });
      draft.setWire({ ...feed, from: { part: fuse.id, terminal: '2' }, to: behind });
    });
  },
  'sense-resistor-too-small': (plan) => {
    const resistor = named(plan, 'resistor', 'Sense resistor');
    return (
      resistor &&
      edit(plan, 'Try: sense resistor too small', (draft) => draft.setPart({ ...resistor, settings: { ...resistor.settings, ohm: 680, ratedW: 0.25 } }))
    );
  },
  'button-on-a-console-pin': (plan) => {
    const computer = named(plan, 'computer');
    const console14 = String(gpioPin(14).pin);
    const from = String(gpioPin(5).pin);
    if (!computer || Object.values(plan.wires).some((w) => joins(w, computer, console14))) return null;
    const moved = Object.values(plan.wires).filter((w) => joins(w, computer, from));
    if (moved.length === 0) return null;
    return edit(plan, 'Try: button on a console pin', (draft) => {
      for (const w of moved) {
        const there = { part: computer.id, terminal: console14 };
        draft.setWire(w.from.part === computer.id ? { ...w, from: there } : { ...w, to: there });
      }
    });
  },
};

/** The six mistakes of the demo, most common first. */
export const mistakes: readonly Mistake[] = MISTAKE_WORDS.map((words) => ({ ...words, edit: EDITS[words.id] }));

function edit(plan: Plan, label: string, change: (draft: Draft) => void): Edit {
  const draft = new Draft(plan);
  change(draft);
  return draft.edit('mistake.try', label);
}

function named(plan: Plan, kind: string, name?: string): Part | null {
  return Object.values(plan.parts).find((p) => p.kind === kind && (name === undefined || p.name === name)) ?? null;
}

/** Where a part has room in another zone: it must not lie under what stands there. */
function freeIn(plan: Plan, zone: string, part: Part): { readonly x: number; readonly y: number } {
  const taken = Object.values(plan.parts).filter((p) => p.zone === zone && p.id !== part.id);
  const { w, h } = extentOf(part);
  return freeSpot(taken.map(extentOf), w, h);
}

function joins(wire: Wire, part: Part, terminal: string): boolean {
  return [wire.from, wire.to].some((e) => e.part === part.id && e.terminal === terminal);
}

function wireBetween(plan: Plan, part: Part, terminal: string): Wire | null {
  return Object.values(plan.wires).find((w) => joins(w, part, terminal)) ?? null;
}

function isGround(plan: Plan, wire: Wire): boolean {
  return [wire.from, wire.to].some((e) => plan.parts[e.part]?.kind === 'chassis-ground');
}
