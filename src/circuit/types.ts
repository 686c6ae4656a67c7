/**
 * Elements, two-state devices and results of the circuit engine. The engine knows volts, amps, ohms and
 * nodes; it knows no vehicle. SI units. Ground is the node named `0`.
 *
 * The set of elements of one network must not change with device states: a state changes values only
 * (an open contact has `ohm: Infinity`), so that the symbolic factorisation is kept.
 */
export type NodeName = string;

/** Relative tolerance per parameter, e.g. `{ setV: 0.02 }`; asymmetric as [down, up] factors, e.g. `{ ctr: [0.5, 1] }`. */
export type Tolerances = Readonly<Record<string, number | readonly [number, number]>>;

interface Base {
  readonly id: string;
  readonly tol?: Tolerances;
}

/** Ohm's law between a and b; current positive a to b. `Infinity` = open. Never below 0.1 mohm. */
export interface Resistor extends Base {
  readonly kind: 'resistor';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly ohm: number;
}
/** Ideal voltage `volt` (a above b) behind `ohm`. Current positive out of a into the circuit. */
export interface Source extends Base {
  readonly kind: 'source';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly volt: number;
  readonly ohm: number;
}
/** Constant current taken from a to b (a load), faded to zero below `minV` across it so that a dead rail draws nothing. */
export interface CurrentLoad extends Base {
  readonly kind: 'current';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly amp: number;
  readonly minV: number;
}
/** Constant power above `minV`, `P V / minV^2` below (continuous), from a to b. */
export interface PowerLoad extends Base {
  readonly kind: 'power';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly watt: number;
  readonly minV: number;
}
/** Diode law through the point (vF at iF), emission coefficient n, junction temperature, series resistance. Anode a. */
export interface Diode extends Base {
  readonly kind: 'diode';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly vF: number;
  readonly iF: number;
  readonly n: number;
  readonly tC: number;
  readonly ohm: number;
}
/** Breakdown device, conducts a to b above `vBr` with slope `ohm`; as a diode b to a when forward (bidirectional: both ways breakdown). */
export interface Zener extends Base {
  readonly kind: 'zener';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly vBr: number;
  readonly ohm: number;
  readonly bidirectional?: boolean;
}
/** Optocoupler: LED from a to k (diode law); transistor c to e carries ctr x LED current, saturating at vCeSat; dark current. Amps reported: LED as port `led`, collector as port `out`. */
export interface Opto extends Base {
  readonly kind: 'opto';
  readonly a: NodeName;
  readonly k: NodeName;
  readonly c: NodeName;
  readonly e: NodeName;
  readonly vF: number;
  readonly iF: number;
  readonly n: number;
  readonly tC: number;
  readonly ctr: number;
  readonly vCeSat: number;
  readonly darkA: number;
}
/**
 * Step-down converter. `on` is a device state (UVLO). On: output is `setV` behind `outOhm`, limited to `limitA`,
 * falling to V_in - dropV when the input is too low; input draws P_out/eta + quiescentA. Off: draws offA, output open.
 * `eta` points: load A -> efficiency, interpolated, clamped to >= 0.05. Ports: `in`, `out`.
 */
export interface StepDown extends Base {
  readonly kind: 'stepdown';
  readonly in: NodeName;
  readonly gnd: NodeName;
  readonly out: NodeName;
  readonly on: boolean;
  readonly setV: number;
  readonly outOhm: number;
  readonly limitA: number;
  readonly dropV: number;
  readonly eta: readonly (readonly [amp: number, eta: number])[];
  readonly quiescentA: number;
  readonly offA: number;
}
/** Linear regulator: same output law, input current = output current + quiescentA. Ports: `in`, `out`. */
export interface Linear extends Base {
  readonly kind: 'linear';
  readonly in: NodeName;
  readonly gnd: NodeName;
  readonly out: NodeName;
  readonly setV: number;
  readonly outOhm: number;
  readonly limitA: number;
  readonly dropV: number;
  readonly quiescentA: number;
}
/** At rest a capacitor is its leakage resistance; esr and farad serve the time engine and surge figures. */
export interface Capacitor extends Base {
  readonly kind: 'capacitor';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly farad: number;
  readonly esrOhm: number;
  readonly leakOhm: number;
}
/** At rest an inductor is its winding resistance. */
export interface Inductor extends Base {
  readonly kind: 'inductor';
  readonly a: NodeName;
  readonly b: NodeName;
  readonly henry: number;
  readonly ohm: number;
}

export type Element = Resistor | Source | CurrentLoad | PowerLoad | Diode | Zener | Opto | StepDown | Linear | Capacitor | Inductor;

/** What a device may look at to decide its state. */
export interface Probe {
  volts(node: NodeName): number;
  /** Current of an element (port for multi-port elements), A, in the direction given with the element. */
  amps(elementId: string, port?: string): number;
  /** State of another device (or this one), by id. */
  on(deviceId: string): boolean;
}

/**
 * A device with two states kept outside Newton: relay contact, UVLO, latch, "the computer is up". `wants`
 * returns the state it would move to now (hysteresis by looking at `on`). Devices switch one at a time,
 * shortest time first; a switch slower than the walk step's `longestS` does not happen in that step.
 */
export interface Device {
  readonly id: string;
  readonly wants: (probe: Probe, on: boolean) => boolean;
  readonly operateS: number;
  readonly releaseS: number;
}

export type SolveStatus = 'solved' | 'not-converged' | 'singular';

/** Result of one solution at rest. Arrays are indexed by `network.nodeIndex` / element order. */
export interface Solution {
  readonly status: SolveStatus;
  /** Volts by node index (index -1 = ground = 0 V). */
  readonly volts: Float64Array;
  /** What the volts lost by rounding, V: add it to a difference of two volts where a current through milliohms is wanted to the last picoampere. */
  readonly rest?: Float64Array;
  /** Nodes with no conducting path to ground: tied by gmin and reported, their volts mean nothing. */
  readonly floating: ReadonlySet<number>;
  /** Node with the largest residual when not converged. */
  readonly worstNode: NodeName | null;
  readonly iterations: number;
}

/** Result of letting the two-state devices settle. */
export interface Settled {
  readonly solution: Solution;
  /** The elements that it is the solution of. */
  readonly elements: readonly Element[];
  readonly states: ReadonlyMap<string, boolean>;
  /** `chatters`: a state vector came again; `starves`: a converter wants on without load and off with it. */
  readonly outcome: 'settled' | 'chatters' | 'starves';
  /** Device at the heart of a bad outcome. */
  readonly culprit: string | null;
  /** Devices that want to switch but are slower than `longestS` (delays still holding). */
  readonly waiting: readonly string[];
}
