import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { once } from './once.ts';
import { grounded, hopsOf, isResistor, netAt } from './trace.ts';

/** A source of sound and an input that it plays into. */
export interface SoundPath {
  readonly source: PartView;
  readonly input: PartView;
  /** The most of the source's voltage that arrives, 0..1: resistors in line and across, at the worst of their tolerances. */
  readonly share: number;
  /** Transformers on the way: the two grounds stay apart. */
  readonly isolated: boolean;
}

/** Every sound output with the radio inputs that it reaches over leads, transformers and resistors. */
export const soundPaths = once((facts): readonly SoundPath[] => facts.ofKind('usb-sound').flatMap((source) => pathsFrom(facts, source)));

interface Here {
  readonly ohm: number;
  readonly isolated: boolean;
}

function pathsFrom(facts: Facts, source: PartView): SoundPath[] {
  const inputs = facts.ofKind('radio-aux');
  const start = netAt(facts, source, 'line');
  const found = new Map<number, Here>(start === -1 ? [] : [[start, { ohm: 0, isolated: false }]]);
  const isolators = facts.ofKind('audio-isolator');
  const offer = (net: number, here: Here): void => {
    if (net !== -1 && !found.has(net) && !grounded(facts, net)) found.set(net, here);
  };
  for (const [net, here] of found) {
    for (const hop of hopsOf(facts).get(net) ?? []) {
      if (hop.link.type === 'conductor') offer(hop.to, here);
      else if (isResistor(hop)) offer(hop.to, { ...here, ohm: here.ohm + least(hop.views) });
    }
    for (const isolator of isolators) {
      const [a, b] = [netAt(facts, isolator, 'a'), netAt(facts, isolator, 'b')];
      if (a === net) offer(b, { ...here, isolated: true });
      if (b === net) offer(a, { ...here, isolated: true });
    }
  }
  return inputs.flatMap((input) => {
    const net = netAt(facts, input, 'aux');
    const here = found.get(net);
    return here ? [{ source, input, share: shareAt(facts, net, here.ohm), isolated: here.isolated }] : [];
  });
}

function least(views: readonly PartView[]): number {
  return 1 / views.reduce((sum, v) => sum + 1 / (v.s.num('ohm') * (1 - v.s.num('tol'))), 0);
}

/** The input itself counts as open: what it takes only helps. */
function shareAt(facts: Facts, net: number, seriesOhm: number): number {
  const across = (hopsOf(facts).get(net) ?? []).filter((h) => isResistor(h) && grounded(facts, h.to));
  if (across.length === 0) return 1;
  const shunt = 1 / across.reduce((sum, h) => sum + h.views.reduce((s, v) => s + 1 / (v.s.num('ohm') * (1 + v.s.num('tol'))), 0), 0);
  return shunt / (shunt + seriesOhm);
}
