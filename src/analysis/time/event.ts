import { transient } from '../../circuit/time/index.ts';
import type { Element, Source } from '../../circuit/types.ts';
import type { Band, Id, VehicleState } from '../../plan/types.ts';
import type { Profile } from '../../trade/profiles.ts';
import { walk } from '../readings.ts';
import { type TimeBase, untouched } from './base.ts';
import { pairsOf } from './run.ts';

/** No source is stiffer than this, ohm. */
const LEAST_OHM = 1e-3;

export interface EventOptions {
  /** Where the key stands; absent = Running. */
  readonly state?: VehicleState;
  /** Absent = high: cold wires, light loads. */
  readonly band?: Band;
}

/** What one place saw in an event, V, and when. */
export interface Seen {
  readonly id: 'battery' | 'input' | 'five';
  readonly part: Id | null;
  readonly leastV: number;
  readonly leastS: number;
  readonly mostV: number;
  readonly mostS: number;
}

export interface EventRun {
  readonly profile: Profile['id'];
  readonly seen: readonly Seen[];
  readonly outcome: 'done' | 'stuck';
}

/**
 * What battery posts, converter inputs and computers see while the supply follows a profile behind its stiffest source,
 * from the settled state of a key position. Clamps are taken to survive: whether they do is a question of energy.
 */
export function runEvent(of: TimeBase, profile: Profile, { state = 'RUN_CHARGING', band = 'high' }: EventOptions = {}): EventRun {
  const base = untouched(of);
  const { solver, batteryAt } = base;
  const instant = solver.maker.at({ state, band });
  const ohm = Math.max(LEAST_OHM, profile.sourceOhm[0]);
  const pairs = pairsOf(base);
  const nodes = [...new Set(pairs.flatMap((p) => [p.plus, p.minus]))].filter((n) => n !== '0');
  let made: { readonly list: readonly Element[]; readonly volt: number; readonly out: readonly Element[] } | null = null;
  const trace = transient(
    solver.network,
    {
      elements: (on, tS) => {
        const list = instant.elements(on);
        const volt = profile.volts(tS);
        if (made?.list !== list || made.volt !== volt) {
          const out = list.slice();
          out[batteryAt] = { ...(out[batteryAt] as Source), volt, ohm };
          made = { list, volt, out };
        }
        return made.out;
      },
      devices: instant.devices,
      breaks: profile.corners.filter((tS) => tS > 0),
    },
    { untilS: profile.lastsS, states: walk(solver, band).statesAt.get(state)!, watch: { nodes, elements: [] } },
  );
  const at = (node: string, k: number): number => (node === '0' ? 0 : trace.volts[nodes.indexOf(node)]![k]!);
  return {
    profile: profile.id,
    outcome: trace.outcome === 'done' ? 'done' : 'stuck',
    seen: pairs.map(({ id, part, plus, minus }) => {
      const volts = trace.tS.map((_, k) => at(plus, k) - at(minus, k));
      const least = volts.indexOf(Math.min(...volts));
      const most = volts.indexOf(Math.max(...volts));
      return { id, part, leastV: volts[least]!, leastS: trace.tS[least]!, mostV: volts[most]!, mostS: trace.tS[most]! };
    }),
  };
}
