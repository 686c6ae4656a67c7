import type { TimedFuse, TimedNetwork } from '../../circuit/time/index.ts';
import type { Device, Element, Source } from '../../circuit/types.ts';
import type { Band } from '../../plan/types.ts';
import { HICCUP_S } from '../../trade/converters.ts';
import type { Curve } from '../../trade/curves.ts';
import type { Instant } from '../network.ts';
import type { TimeBase } from './base.ts';
import { Overloads } from './overloads.ts';
import { fusesOf } from './timedFuses.ts';

/** A stretch of time in which nothing but the supply changes by itself. */
export interface Phase {
  readonly fromS: number;
  readonly instant: Instant;
  /** Elements that are open although their line is live: retained feeds whose own time is over. */
  readonly open: readonly number[];
}

export interface TimedOptions {
  readonly band: Band;
  /** In order of time, the first from 0. */
  readonly phases: readonly Phase[];
  /** Volts behind the battery's posts. */
  readonly supply: Curve;
  /** Resistance of what gives them at a time, ohm, steady between the supply's corners; absent = the battery's own. */
  readonly sourceOhm?: (tS: number) => number;
}

/** A plan as a network in time: key positions one after another, or one of them under an event of the supply. */
export class TimedPlan implements TimedNetwork {
  readonly devices: readonly Device[];
  readonly breaks: readonly number[];
  readonly fuses: readonly TimedFuse[];
  private readonly phases: readonly Phase[];
  private readonly overloads: Overloads;
  private readonly fuseAt: readonly { readonly id: string; readonly at: number }[];
  private phase = 0;
  private made: {
    readonly list: readonly Element[];
    readonly phase: number;
    readonly volt: number;
    readonly ohm: number;
    readonly blown: string;
    readonly paused: string;
    readonly out: Element[];
  } | null = null;

  constructor(
    private readonly base: TimeBase,
    private readonly options: TimedOptions,
  ) {
    const { solver, graph } = base;
    const at = solver.network.elementIndex;
    this.phases = options.phases;
    const first = this.phases[0]!.instant;
    this.overloads = new Overloads(
      graph.views.values(),
      first.elements(() => false),
      at,
      graph.plan.thresholds.hiccupS ?? HICCUP_S,
    );
    this.devices = [...first.devices, ...this.overloads.devices];
    this.breaks = [...new Set([...this.phases.map((p) => p.fromS), ...options.supply.corners])].filter((tS) => tS > 0).sort((a, b) => a - b);
    this.fuses = fusesOf(graph.views.values(), options.band);
    this.fuseAt = this.fuses.map(({ id, element }) => ({ id, at: at.get(element)! }));
  }

  elements(on: (deviceId: string) => boolean, tS: number): readonly Element[] {
    const { phases, fuseAt, made, overloads } = this;
    const { supply, sourceOhm } = this.options;
    while (this.phase > 0 && phases[this.phase]!.fromS > tS) this.phase--;
    while (this.phase + 1 < phases.length && phases[this.phase + 1]!.fromS <= tS) this.phase++;
    const { instant, open } = phases[this.phase]!;
    const list = instant.elements(on);
    const volt = supply.volts(tS);
    const battery = list[this.base.batteryAt] as Source;
    const ohm = sourceOhm?.(tS) ?? battery.ohm;
    let blown = '';
    for (const { id } of fuseAt) if (on(id)) blown += `${id},`;
    const paused = overloads.key(on);
    if (made && made.list === list && made.phase === this.phase && made.volt === volt && made.ohm === ohm && made.blown === blown && made.paused === paused)
      return made.out;
    const out = list.slice();
    out[this.base.batteryAt] = { ...battery, volt, ohm };
    for (const k of open) out[k] = opened(out[k]!);
    if (blown) for (const { id, at } of fuseAt) if (on(id)) out[at] = opened(out[at]!);
    if (paused) overloads.lay(out, on);
    this.made = { list, phase: this.phase, volt, ohm, blown, paused, out };
    return out;
  }
}

function opened(e: Element): Element {
  return e.kind === 'resistor' && e.ohm !== Number.POSITIVE_INFINITY ? { ...e, ohm: Number.POSITIVE_INFINITY } : e;
}
