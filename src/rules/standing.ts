import type { Facts, PartView, TerminalKey } from '../analysis/factsTypes.ts';
import { Draft } from '../plan/draft.ts';
import type { Band, Values, VehicleState, Wire } from '../plan/types.ts';
import { splitWire } from '../plan/wireEdits.ts';
import { CUT_OUT } from '../trade/standing.ts';
import { beside, end, freePin, groundEnd, newWire, onlyWire } from './build.ts';
import { called } from './defineRule.ts';
import { inTurn } from './fixes.ts';
import { fuseEnds } from './keyLine.ts';
import { endingAt } from './supplyHold.ts';
import { type Tap, taps } from './taps.ts';
import type { Repair } from './types.ts';

/** Taps on lines of one sort, or on all lines; stores are none. */
export function vehicleTaps(facts: Facts, wanted: (line: string) => boolean = () => true): readonly Tap[] {
  return taps(facts).filter((t) => t.source.kind !== 'store' && wanted(t.source.line ?? '30'));
}

/** What flows out of the vehicle into the build's wires at a tap, A. */
export function tapA(facts: Facts, tap: Tap, state: VehicleState, band: Band): number {
  return wiresAt(facts, tap.key).reduce((sum, w) => sum + Math.abs(facts.wireA(w.id, state, band) ?? 0), 0);
}

/** What flows out of it as a heating current at the lowest supply, less what cut-outs end in time, A. */
export function unguardedHeatA(facts: Facts, tap: Tap): number {
  const guarded = cutOutsOf(facts, tap).reduce((sum, view) => sum + heatA(facts, `${view.part.id}.in`), 0);
  return Math.max(0, heatA(facts, tap.key) - guarded);
}

function heatA(facts: Facts, key: TerminalKey): number {
  return wiresAt(facts, key).reduce((sum, w) => sum + (facts.analysis.wires[w.id]?.heatA ?? 0), 0);
}

/** The build's wires that end on this very terminal. */
function wiresAt(facts: Facts, key: TerminalKey): readonly Wire[] {
  return facts.netWires(facts.netOf(key)).filter((w) => w.owner === 'build' && [w.from, w.to].some((e) => `${e.part}.${e.terminal}` === key));
}

/** Cut-outs that a tap feeds. */
export function cutOutsOf(facts: Facts, tap: Tap): readonly PartView[] {
  return facts.ofKind('low-voltage-cutout').filter((view) => endingAt(facts, view, 'in')?.feeds.has(tap.view) === true);
}

/** A cut-out behind the fuse of a feed, its warning on a free pin. Nothing where the feed has no fuse or branches right behind it. */
export function cutOutRepair(facts: Facts, tap: Tap): Repair[] {
  const fused = tap.view.kind.kind === 'battery' ? [] : fuseEnds(facts, tap.view);
  const wires = fused.flatMap((far) => onlyWire(facts.plan, far.part, far.terminal) ?? []);
  const wire = wires.length === 1 ? wires[0] : undefined;
  const fuse = wire && fused.find((f) => [wire.from, wire.to].some((e) => e.part === f.part))?.part;
  if (!wire || !fuse) return [];
  const computer = facts.ofKind('computer')[0];
  const settings: Values = facts.plan.vehicle.systemV === 24 ? { nominalV: 24, cutV: 2 * CUT_OUT.leastV, warnV: 24.4, reconnectV: 2 * CUT_OUT.backV } : {};
  return [
    {
      title: `Put a low-voltage cut-out behind ${called(tap.view)}`,
      safe: false,
      edit: (plan) => {
        const row = plan.wires[wire.id];
        const far = row && (row.from.part === fuse ? row.to : row.from);
        const load = far && plan.parts[far.part];
        if (!row || !far || !load) return null;
        const forward = row.from.part === fuse;
        const cut = splitWire(plan, row.id, { kind: 'low-voltage-cutout', ...beside(load, -180, 0), settings }, forward ? 'in' : 'out', forward ? 'out' : 'in');
        return inTurn(plan, 'repair.apply', 'Add a low-voltage cut-out', [
          () => cut.edit,
          (next) => {
            const ground = groundEnd(next, load.zone);
            if (!ground) return null;
            const draft = new Draft(next);
            newWire(draft, end(cut.id, 'gnd'), ground);
            const pin = computer && freePin(next, computer.part.id);
            if (computer && pin) {
              newWire(draft, end(cut.id, 'warn'), end(computer.part.id, `${pin.pin}`));
              const had = next.parts[computer.part.id]!;
              draft.setPart({ ...had, settings: { ...had.settings, [`gpio${pin.gpio}Mode`]: 'in-up' } });
            }
            return draft.edit('repair.apply', 'Join the cut-out');
          },
        ]);
      },
    },
  ];
}
