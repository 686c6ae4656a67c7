import { elementAmps, portVolts } from '../amps.ts';
import type { Network } from '../network.ts';
import { solveAtRest } from '../solve.ts';
import type { Probe } from '../types.ts';
import { TimedCircuit } from './circuit.ts';
import { eventWithin } from './event.ts';
import { Fuses } from './fuses.ts';
import { probeAt } from './look.ts';
import { type Moment, newMoment } from './moment.ts';
import { fastest, firstStepS, type Tolerance } from './pace.ts';
import { Recorder } from './record.ts';
import { Stepper } from './step.ts';
import { LEAST_S, letSwitch, Switches } from './switches.ts';
import type { StuckWhy, TimedNetwork, Trace, TransientEvent, TransientOptions } from './types.ts';

/** Inputs just before and just after a break are read this far from it, s. */
const NUDGE_S = 1e-10;
const CAUTION = 0.9;
const MOST_GROWTH = 5;
const LEAST_SHRINK = 0.1;
const UNSOLVED_SHRINK = 1 / 8;
const MAX_STEP_S = 5;
const MOST_STEPS = 100_000;
/** Where a state of a load ends, the network falls to another: so far ahead, s, and so often without a step between. */
const FALL_S = 1e-8;
const MOST_FALLS = 3;

/**
 * Follows a network in time from its rest (or a given charge) in the given device states. Implicit steps of second order,
 * chosen by the error allowed of what capacitors and inductors hold; breaks, delays that end and the end are hit exactly;
 * the moment at which a device begins to want is found to 1 ms. At a jump both sides are recorded: two entries at one time.
 * @param network compiled from the elements that `timed` gives; its buffers are used, nothing in them is kept
 * @throws when the elements are not those compiled, or something watched is not there
 */
export function transient(network: Network, timed: TimedNetwork, options: TransientOptions): Trace {
  return new Run(network, timed, options).run();
}

class Run {
  private readonly circuit: TimedCircuit;
  private readonly switches: Switches;
  private readonly fuses: Fuses;
  private readonly stepper: Stepper;
  private readonly recorder: Recorder;
  private readonly tolerance: Tolerance;
  private readonly events: TransientEvent[] = [];
  private nextBreak = 0;
  private now: Moment;
  private readonly middle: Moment;
  private end: Moment;
  /** Inputs of this instant are read so much later: it is a break, and this is after it. */
  private shiftS = 0;
  private accepted = 0;
  private rejected = 0;
  private falls = 0;
  private stuck: Trace['stuck'] = null;

  constructor(
    private readonly given: Network,
    private readonly timed: TimedNetwork,
    private readonly options: TransientOptions,
  ) {
    this.fuses = new Fuses(timed.fuses ?? [], options.states);
    this.switches = new Switches([...timed.devices, ...this.fuses.devices], options.states);
    this.circuit = new TimedCircuit(given, (tS) => timed.elements(this.switches.on, tS));
    this.tolerance = { absV: options.absV ?? 0.005, relative: options.relative ?? 0.001 };
    this.stepper = new Stepper(this.circuit, this.tolerance);
    this.recorder = new Recorder(this.circuit, options.watch);
    const moment = (): Moment => newMoment(given, this.circuit.stores.count);
    this.now = moment();
    this.middle = moment();
    this.end = moment();
  }

  run(): Trace {
    const { untilS, fixedStepS, onProgress } = this.options;
    let stepS = this.begin();
    let isCancelled = false;
    while (stepS !== null && this.now.tS < untilS && !isCancelled) {
      stepS = this.advance(fixedStepS ?? stepS);
      isCancelled = onProgress?.(Math.min(1, this.now.tS / untilS)) ?? false;
    }
    return {
      outcome: stepS === null ? 'stuck' : isCancelled ? 'cancelled' : 'done',
      stuck: this.stuck,
      ...this.recorder.done(),
      events: this.events,
      states: new Map(this.switches.states),
      fuseHeat: this.fuses.mostHeat(),
      accepted: this.accepted,
      rejected: this.rejected,
    };
  }

  /** At rest, or as charged, at the start. The first step, or null when there is no such state. */
  private begin(): number | null {
    const { given, now, circuit, options } = this;
    // Breaks before the start are over.
    while ((this.timed.breaks[this.nextBreak] ?? Number.POSITIVE_INFINITY) < 0) this.nextBreak++;
    const startS = this.timed.breaks[this.nextBreak] === 0 ? -NUDGE_S : 0;
    const elements = this.timed.elements(this.switches.on, startS);
    const rest = solveAtRest(given, elements);
    if (rest.status !== 'solved') return this.stop(rest.worstNode);
    elements.forEach((e, k) => {
      const store = circuit.stores.ofElement[k]!;
      if (store < 0) return;
      now.held[store] = e.kind === 'capacitor' ? (options.charge?.get(e.id) ?? portVolts(given, e, rest)[0]) : elementAmps(given, e, rest);
    });
    now.x.set(rest.volts);
    const first = circuit.instant(now, startS);
    if (first.status !== 'solved') return this.stop(given.nodes[first.worst]);
    now.tS = 0;
    this.keep();
    return this.arrive(this.firstStep());
  }

  /** One accepted step, or an instant. The step to try next, or null when stuck. */
  private advance(stepS: number): number | null {
    const { now, switches, options, stepper } = this;
    const isFixed = options.fixedStepS !== undefined;
    const breakS = this.timed.breaks[this.nextBreak] ?? Number.POSITIVE_INFINITY;
    const limitS = Math.min(breakS, switches.nextS(), options.untilS);
    const roomS = limitS - now.tS;
    if (roomS <= LEAST_S) {
      now.tS = limitS;
      return this.arrive(stepS);
    }
    const wantedS = isFixed ? stepS : Math.min(stepS, options.maxStepS ?? MAX_STEP_S);
    let spanS = wantedS >= 0.999999 * roomS ? roomS : !isFixed && wantedS > 0.5 * roomS ? 0.5 * roomS : wantedS;
    const firstS = spanS;
    let isCut = false;
    let guesses = 0;
    for (;;) {
      const endS = spanS === roomS ? limitS : now.tS + spanS;
      const tried = stepper.attempt(now, this.middle, this.end, spanS, endS === breakS ? endS - NUDGE_S : endS);
      this.end.tS = endS;
      if (!tried.isSolved) {
        this.rejected++;
        if (spanS * UNSOLVED_SHRINK < LEAST_S) return this.fall(tried.worst);
        spanS *= UNSOLVED_SHRINK;
        isCut = true;
        continue;
      }
      const factor = CAUTION / Math.cbrt(Math.max(tried.error, 1e-9));
      if (!isFixed && tried.error > 1 && spanS > LEAST_S) {
        this.rejected++;
        spanS = Math.max(LEAST_S, spanS * Math.max(LEAST_SHRINK, factor));
        isCut = true;
        continue;
      }
      const eventS = eventWithin(this.circuit, switches, this.fuses, now, this.middle, this.end, firstS, guesses);
      if (eventS < spanS) {
        this.rejected++;
        guesses++;
        spanS = eventS;
        continue;
      }
      const grownS = spanS * Math.min(MOST_GROWTH, factor);
      this.fuses.heatOver(this.circuit, now, this.middle, this.end);
      this.accept();
      if (this.accepted >= (options.mostSteps ?? MOST_STEPS) && this.now.tS < options.untilS) return this.stop(this.restless(), 'restless');
      // A step cut short by a limit or an event says nothing against the longer one.
      return this.arrive(isCut || spanS >= wantedS ? grownS : Math.max(grownS, wantedS));
    }
  }

  private accept(): void {
    this.stepper.accept(this.middle, this.end);
    const old = this.now;
    this.now = this.end;
    this.end = old;
    this.accepted++;
    this.falls = 0;
    this.shiftS = 0;
    this.keep();
  }

  private keep(): void {
    this.recorder.take(this.now);
    this.options.onStep?.(this.now.tS, this.now.x.subarray(0, this.given.nodes.length), this.now.elements);
  }

  /** What happens at the present instant: a break, devices that switch. The next step, null when stuck. */
  private arrive(stepS: number): number | null {
    const { now, timed } = this;
    let isJump = false;
    while ((timed.breaks[this.nextBreak] ?? Number.POSITIVE_INFINITY) <= now.tS + LEAST_S) {
      this.nextBreak++;
      this.shiftS = NUDGE_S;
      isJump = true;
    }
    if (isJump) this.switches.free();
    if (isJump && !this.resolve()) return null;
    const before = this.events.length;
    const probe = (): Probe => probeAt(this.circuit, now, this.switches.on);
    if (!letSwitch(this.switches, now.tS, this.events, probe, () => this.resolve())) return null;
    if (!isJump && this.events.length === before) return stepS;
    this.keep();
    this.stepper.restart();
    return this.firstStep();
  }

  /** Volts at this instant after something jumped; what is stored stays. */
  private resolve(): boolean {
    const { now } = this;
    const tS = now.tS;
    const result = this.circuit.instant(now, tS + this.shiftS);
    now.tS = tS;
    if (result.status === 'solved') return true;
    this.stop(this.given.nodes[result.worst]);
    return false;
  }

  /** No step however short has a solution: the state of a load ends here, and the network falls to another. */
  private fall(worst: number): number | null {
    const { now, circuit } = this;
    if (++this.falls > MOST_FALLS) return this.stop(this.given.nodes[worst]);
    const tS = now.tS + FALL_S;
    for (let s = 0; s < circuit.stores.count; s++) now.held[s]! += FALL_S * now.slope[s]!;
    const result = circuit.instant(now, tS, true);
    if (result.status !== 'solved') return this.stop(this.given.nodes[result.worst] ?? this.given.nodes[worst]);
    now.tS = tS;
    this.keep();
    this.stepper.restart();
    return this.arrive(this.firstStep());
  }

  private firstStep(): number {
    return Math.max(2 * LEAST_S, firstStepS(this.circuit, this.tolerance, this.now));
  }

  /** A node of the store that moves fastest. */
  private restless(): string | undefined {
    const { stores } = this.circuit;
    const { store } = fastest(this.circuit, this.tolerance, this.now);
    return this.given.nodes[stores.from[store] ?? -1] ?? this.given.nodes[stores.to[store] ?? -1];
  }

  private stop(node: string | null | undefined, why: StuckWhy = 'no state'): null {
    this.stuck = { tS: this.now.tS, node: node ?? this.given.nodes[0] ?? '0', why };
    return null;
  }
}
