import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { once } from './once.ts';
import type { Converter } from './rails.ts';
import { grounded, type Hop, netAt, waysFrom } from './trace.ts';

/** Nets that a converter's output feeds over wires, fuses, contacts, chokes and diodes. */
export function fedNets(facts: Facts, c: Converter): ReadonlySet<number> {
  const known = fed(facts);
  let nets = known.get(c);
  if (!nets) {
    nets = netsFedBy(facts, c);
    known.set(c, nets);
  }
  return nets;
}

const fed = once(() => new Map<Converter, ReadonlySet<number>>());

function netsFedBy(facts: Facts, c: Converter): ReadonlySet<number> {
  const on = (h: Hop): boolean =>
    !h.views.includes(c.view) &&
    (h.link.type === 'fuse' ||
      h.link.type === 'conductor' ||
      (h.link.type === 'contact' && h.views[0]!.kind.kind !== 'push-button') ||
      (h.link.type === 'diode' && h.forward));
  const ways = waysFrom(facts, facts.netOf(c.outKey), on, (net) => grounded(facts, net));
  return new Set([...ways.keys()].filter((net) => !grounded(facts, net)));
}

/** Parts of these two-terminal kinds between those nets and ground: what the output fills. */
export function filledBy(facts: Facts, c: Converter, kinds: readonly string[]): PartView[] {
  const nets = fedNets(facts, c);
  const ends = (view: PartView): readonly [number, number] =>
    view.kind.kind === 'resistor' ? [netAt(facts, view, '1'), netAt(facts, view, '2')] : [netAt(facts, view, '+'), netAt(facts, view, '-')];
  return facts.ofKind(...kinds).filter((view) => {
    const [a, b] = ends(view);
    return (nets.has(a) && grounded(facts, b)) || (nets.has(b) && grounded(facts, a));
  });
}
