import type { Results } from '../../src/advise/types.ts';
import type { Analysis, EndProtection, Reading, WireReport } from '../../src/analysis/types.ts';
import type { Id, Part, Plan, Wire } from '../../src/plan/types.ts';
import type { Finding } from '../../src/rules/types.ts';
import type { Band, VehicleState } from '../../src/trade/words.ts';

/**
 * A small plan and results made by hand, so that the sheet's own tests do not move with the engine. A permanent feed,
 * a 5 A fuse, a converter, a computer, a button through 1 kΩ, a ground; the feed's own lead belongs to the vehicle.
 */
const part = (id: Id, kind: string, zone: Id, x: number, y: number, settings: Part['settings'] = {}, more: Partial<Part> = {}): Part => ({
  id,
  kind,
  owner: 'build',
  zone,
  x,
  y,
  turn: 0,
  settings,
  ...more,
});

const wire = (id: Id, number: number, from: readonly [Id, string], to: readonly [Id, string], areaMm2: number, more: Partial<Wire>): Wire => ({
  id,
  owner: 'build',
  from: { part: from[0], terminal: from[1] },
  to: { part: to[0], terminal: to[1] },
  number,
  areaMm2,
  lengthM: 1,
  ...more,
});

const vehicleWire: Wire = { id: 'w20', owner: 'vehicle', from: { part: 'p1', terminal: '+' }, to: { part: 'p2', terminal: 'in' }, areaMm2: 1.5, lengthM: 2 };

const WIRES: readonly Wire[] = [
  vehicleWire,
  wire('w21', 1, ['p2', 'out'], ['p3', '1'], 1.5, { colour: 'RD', lengthM: 0.12 }),
  wire('w22', 2, ['p3', '2'], ['p4', 'in'], 1.5, { colour: 'RD', stripe: 'WH', lengthM: 2.2 }),
  wire('w23', 3, ['p4', 'gnd'], ['p7', '31'], 1.5, { colour: 'BK', lengthM: 0.8 }),
  wire('w24', 4, ['p4', 'out'], ['p5', '2'], 1.5, { colour: 'OG', lengthM: 0.25 }),
  wire('w25', 5, ['p4', '0v'], ['p5', '6'], 1.5, { colour: 'BK', lengthM: 0.25 }),
  wire('w26', 6, ['p5', '29'], ['p6', '1'], 0.22, { colour: 'GN', lengthM: 0.1 }),
  wire('w27', 7, ['p6', '2'], ['p8', '1'], 0.22, { colour: 'GN', stripe: 'YE', lengthM: 1.1 }),
  wire('w28', 8, ['p8', '2'], ['p5', '30'], 0.22, { colour: 'BK', lengthM: 1.1 }),
];

const PARTS: readonly Part[] = [
  part('p1', 'battery', 'z1', 20, 40, {}, { owner: 'vehicle' }),
  part('p2', 'feed-30', 'z2', 20, 40, {}, { owner: 'vehicle', name: 'Radio feed <30>' }),
  part('p3', 'blade-fuse', 'z2', 180, 45, { ratingA: 5 }),
  part('p4', 'step-down', 'z2', 20, 140),
  part('p5', 'computer', 'z2', 20, 300, {}, { name: '=Desk computer' }),
  part('p6', 'resistor', 'z2', 20, 240, { ohm: 1000 }),
  part('p7', 'chassis-ground', 'z2', 60, 0),
  part('p8', 'push-button', 'z2', 180, 240, {}, { name: 'Next page' }),
];

export const plan: Plan = {
  format: 'dashloom-plan',
  version: 1,
  id: 'fixture',
  title: 'Fixture & "title" </style>',
  note: '',
  vehicle: {
    name: 'Van of the fixture',
    systemV: 12,
    polarity: 'negative-ground',
    batteryAh: 90,
    centralClamping: 'yes',
    dipLevel: 'I',
    parkedA: 0.035,
    standingDays: 21,
    stopStart: false,
    remoteStart: false,
    electrified: false,
    isolator: false,
  },
  zones: {
    z1: { id: 'z1', name: 'Engine bay', kind: 'engine-bay', order: 0, width: null },
    z2: { id: 'z2', name: 'Behind the radio', kind: 'dash', order: 1, width: null },
  },
  runs: { r3: { id: 'r3', a: 'z1', b: 'z2', lengthM: 1.4 } },
  parts: Object.fromEntries(PARTS.map((p) => [p.id, p])),
  wires: Object.fromEntries(WIRES.map((w) => [w.id, w])),
  thresholds: {},
  setAside: {},
  nextSerial: 40,
};

const STATES: readonly VehicleState[] = ['OFF_ASLEEP', 'OFF_AWAKE', 'ACC', 'RUN_STOPPED', 'START', 'RUN_CHARGING', 'RETAIN', 'RETAIN_DOOR', 'ISOLATED'];
const BANDS: readonly Band[] = ['low', 'typical', 'high'];
/** Volts at each terminal while live: everything hangs on the permanent line here. */
const VOLTS: Readonly<Record<string, number>> = {
  'p1.+': 12.6,
  'p2.in': 12.6,
  'p2.out': 12.5,
  'p3.1': 12.49,
  'p3.2': 12.46,
  'p4.in': 12.4,
  'p4.gnd': 0.02,
  'p4.out': 5.12,
  'p4.0v': 0.02,
  'p5.2': 5.1,
  'p5.6': 0.03,
  'p5.29': 3.3,
  'p5.30': 0.03,
  'p6.1': 3.3,
  'p6.2': 3.3,
  'p7.31': 0,
  'p8.1': 3.3,
  'p8.2': 0.03,
};
const TERMINALS = Object.keys(VOLTS);
const AMPS: Readonly<Record<Id, number>> = { w20: 0.8, w21: 0.8, w22: 0.8, w23: 0.8, w24: 1.7, w25: 1.7, w26: 0, w27: 0, w28: 0 };

const reading = (state: VehicleState, band: Band): Reading => {
  const live = state === 'ISOLATED' ? 0 : 1;
  return {
    state,
    band,
    status: 'solved',
    trouble: null,
    terminalV: Float64Array.from(TERMINALS, (t) => (VOLTS[t] as number) * live),
    wireA: Float64Array.from(WIRES, (w) => (AMPS[w.id] as number) * live),
    elementA: new Float64Array(),
    deviceOn: Uint8Array.from([live, state === 'RETAIN' ? 1 : 0]),
    waiting: [],
  };
};

const end = (maxA: number, byPart: Id | null, byName: string): EndProtection => ({ maxA, byPart, byName });
const fused = end(5, 'p3', 'F1');
const limited = end(8, 'p4', 'T1');

function report(w: Wire, role: WireReport['role'], nominalV: number | null, by: EndProtection, dropV: number): WireReport {
  return {
    id: w.id,
    areaMm2: w.areaMm2 as number,
    lengthM: w.lengthM as number,
    hotOhm: 0.02,
    coldOhm: 0.015,
    limitA: 15,
    baseA: 15,
    kT: 1,
    kN: 1,
    zoneC: 70,
    nominalV,
    role,
    worstA: AMPS[w.id] as number,
    worstState: 'RUN_CHARGING',
    worstBand: 'low',
    heatA: AMPS[w.id] as number,
    peakA: AMPS[w.id] as number,
    worstDropV: dropV,
    worstDropShare: nominalV ? dropV / nominalV : null,
    worstW: dropV * (AMPS[w.id] as number),
    worstWPerM: 0.01,
    protection: { from: by, to: by },
    protectedBy: by.byPart === null ? '' : by.byName,
    isProtected: by.byPart !== null,
    unfused: by.byPart === null,
  };
}

const by = (id: Id): Wire => WIRES.find((w) => w.id === id) as Wire;
const open = end(Number.POSITIVE_INFINITY, null, '');
const analysis: Analysis = {
  index: { terminals: TERMINALS, wires: WIRES.map((w) => w.id), elements: [], devices: ['p5:powered', 'p5:halted'] },
  readings: BANDS.flatMap((band) => STATES.map((state) => reading(state, band))),
  design: reading('RUN_STOPPED', 'low'),
  wires: {
    w20: report(by('w20'), 'supply', 12, open, 0.1),
    w21: report(by('w21'), 'supply', 12, open, 0.01),
    w22: report(by('w22'), 'supply', 12, fused, 0.06),
    w23: report(by('w23'), 'ground', 0, fused, 0.02),
    w24: report(by('w24'), 'rail5', 5, limited, 0.02),
    w25: report(by('w25'), 'ground', 0, limited, 0.01),
    w26: report(by('w26'), 'signal', 3.3, limited, 0),
    w27: report(by('w27'), 'signal', 3.3, limited, 0),
    w28: report(by('w28'), 'ground', 0, limited, 0),
  },
  fuses: {
    p3: {
      part: 'p3',
      ratingA: 5,
      heatA: 0.8,
      allowedA: 3.3,
      leastShortA: 46.8,
      leastShortWire: 'w22',
      greatestShortA: 190,
      unfusedM: 0.12,
    },
  },
  arrivals: [
    {
      part: 'p5',
      label: 'header 5 V',
      plus: '2',
      minus: '6',
      nominalV: 5,
      minV: 4.75,
      maxV: 5.25,
      typical: [5.07, 5.07, 5.07, 5.07, 5.07, 5.07],
      worstLow: { v: 4.96, state: 'RUN_CHARGING', corner: 'heavy load, hot wires' },
      worstHigh: { v: 5.22, state: 'RUN_CHARGING', corner: 'light load' },
    },
  ],
  parked: { buildA: 0.0025, vehicleA: 0.035, selfA: 0.005, days: 35.3, daysWithout: 37.5, shares: [{ part: 'p4', name: 'Step-down converter', amp: 0.0025 }] },
  loads: [],
  pins: [
    {
      part: 'p5',
      pin: 29,
      gpio: 5,
      label: 'Next page',
      joined: 'p8',
      wire: 'w26',
      volts: [3.3, 3.3, 3.3, 3.3, 3.3, 3.3],
      level: ['high', 'high', 'high', 'high', 'high', 'high'],
      pull: 'internal pull-up',
    },
  ],
  dependsOnHistory: [],
};

export const finding: Finding = {
  rule: 'fuse-near-tap',
  code: 'A2',
  level: 'advice',
  subject: { kind: 'wire', id: 'w21' },
  related: [],
  what: 'Wire W1 runs 0.12 m from the tap to its fuse.',
  todo: 'Keep it that short.',
  figures: [{ label: 'unfused length', value: 0.12, unit: 'm' }],
  state: 'RUN_CHARGING',
  band: 'low',
};

export const results: Results = {
  filled: plan,
  reasons: {},
  analysis,
  report: {
    cards: [{ key: 'fuse-near-tap:w21', rule: 'fuse-near-tap', code: 'A2', level: 'advice', title: 'Fuse close to the tap', findings: [finding], folded: [] }],
    findings: [finding],
    waiting: [],
    loose: {},
    aside: [
      {
        card: {
          key: 'x',
          rule: 'x',
          code: 'G2',
          level: 'fault',
          title: 'Stands too long',
          findings: [{ ...finding, level: 'fault', what: 'The battery lasts 35 days.' }],
          folded: [],
        },
        reason: 'It is driven every week.',
      },
    ],
    looked: 61,
    cannotTell: [{ rule: 'x', code: 'A3', level: 'hazard', subject: { kind: 'part', id: 'p2' }, needs: 'the rating of the vehicle’s own fuse' }],
    notApplicable: ['y'],
    todo: {},
    crashed: [],
  },
};
