import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { gather } from '../../plan/gather.ts';
import { setSettings } from '../../plan/partEdits.ts';
import type { Plan, Wire } from '../../plan/types.ts';
import { HEADER, headerPin, i2cRoles } from '../../trade/header.ts';
import { BUS_REACH_M, I2C, i2cFarad, i2cRiseS } from '../../trade/links.ts';
import { called, defineRule, part, plain, two, verdicts, wire } from '../defineRule.ts';
import { inTurn } from '../fixes.ts';
import { isRail3, pullsOn } from '../pins.ts';
import { grounded, netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('bus-run-too-far', 'I5');

export const busRunTooFar = defineRule({
  id: 'bus-run-too-far',
  code: 'I5',
  level: 'fault',
  title: 'Short-reach bus led too far',
  why: 'These buses are made for one board. A resistor pulls the line up, and every metre of lead is a small capacitor that it must fill: led too far, the edges get so slow that bits are lost.',
  source: {
    text: 'I2C specification: 400 pF, rise time 1000 ns at 100 kHz, 300 ns at 400 kHz; 100 pF/m; others from practice (from memory)',
    grade: 'standard',
  },
  needs: 'graph',
  check: (facts) => [...i2cBuses(facts).flatMap((b) => judgeI2c(facts, b)), ...facts.ofKind('bus-device').flatMap((v) => judgeReach(facts, v))],
  repair: (finding, facts) => {
    const bus = i2cBuses(facts).find((b) => b.devices[0]!.part.id === finding.subject.id);
    if (!bus || bus.ohm === null || bus.farad > I2C.maxFarad || i2cRiseS(bus.ohm, bus.farad) > I2C.slow.riseS) return [];
    const title = 'Run the bus at 100 kHz';
    const steps = bus.devices.map((v) => (plan: Plan) => setSettings(plan, v.part.id, { clock: undefined }));
    return [{ title, safe: true, edit: (plan) => inTurn(plan, 'part.set', title, steps) }];
  },
});

interface Bus {
  readonly devices: readonly PartView[];
  readonly wires: readonly Wire[];
  readonly lengthM: number;
  readonly farad: number;
  /** What pulls the weaker of the two lines up, ohm; null when nothing does. */
  readonly ohm: number | null;
  readonly fast: boolean;
}

/** I2C devices that share both lines, with what loads them. */
function i2cBuses(facts: Facts): Bus[] {
  const byNet = new Map<number, PartView[]>();
  for (const view of facts.ofKind('bus-device')) {
    if (view.s.str('bus') !== 'i2c' || !facts.isWired(`${view.part.id}.sda`) || !facts.isWired(`${view.part.id}.scl`)) continue;
    gather(byNet, netAt(facts, view, 'sda'), view);
  }
  return [...byNet.values()].map((devices) => {
    const nets = ['sda', 'scl'].map((t) => netAt(facts, devices[0]!, t));
    const wires = nets.map((n) => facts.netWires(n));
    const lengthM = Math.max(...wires.map((list) => list.reduce((sum, w) => sum + facts.wireLengthM(w.id), 0)));
    const boards = facts.ofKind('computer').filter((c) => nets.some((n) => cellsOn(facts, c).some((pin) => netAt(facts, c, `${pin}`) === n)));
    const pulls = nets.map((n) => pullOhm(facts, n));
    return {
      devices,
      wires: [...new Set(wires.flat())],
      lengthM,
      farad: i2cFarad(lengthM, devices.length + boards.length),
      ohm: pulls.some((p) => p === null) ? null : Math.max(...pulls.map((p) => p!)),
      fast: devices.some((d) => d.s.str('clock') === '400'),
    };
  });
}

function cellsOn(facts: Facts, computer: PartView): readonly number[] {
  return HEADER.filter((p) => p.gpio !== null && facts.isWired(`${computer.part.id}.${p.pin}`)).map((p) => p.pin);
}

/** Resistors from a net to 3.3 V side by side, those soldered to the board included, ohm at nominal. */
function pullOhm(facts: Facts, net: number): number | null {
  const soldered = facts
    .ofKind('computer')
    .flatMap((c) => [i2cRoles.sda, i2cRoles.scl].flatMap((gpio) => HEADER.filter((p) => p.gpio === gpio && netAt(facts, c, `${p.pin}`) === net)))
    .map((p) => headerPin(p.pin).fixedPullUpOhm ?? Number.POSITIVE_INFINITY);
  const drawn = pullsOn(facts, new Set([net]))
    .filter((p) => isRail3(p.volt))
    .map((p) => p.view.s.num('ohm'));
  const sum = [...soldered, ...drawn].reduce((s, ohm) => s + 1 / ohm, 0);
  return sum > 0 ? 1 / sum : null;
}

function judgeI2c(facts: Facts, bus: Bus): Verdict[] {
  const first = bus.devices[0]!;
  const subject = part(first.part.id);
  if (grounded(facts, netAt(facts, first, 'sda'))) return [];
  if (bus.ohm === null) return [unknown(subject, `what pulls the bus of ${called(first)} up to 3.3 V`)];
  const riseS = i2cRiseS(bus.ohm, bus.farad);
  const { hz, riseS: mostS } = bus.fast ? I2C.fast : I2C.slow;
  if (bus.farad <= I2C.maxFarad && riseS <= mostS) return [fine(subject)];
  const full = bus.farad > I2C.maxFarad;
  return [
    found({
      level: 'fault',
      subject,
      related: [...bus.devices.slice(1).map((d) => part(d.part.id)), ...bus.wires.map((w) => wire(w.id))],
      what: full
        ? `The I2C bus of ${called(first)} is ${plain(bus.lengthM)} m long: ${two(bus.farad * 1e12)} pF, and ${I2C.maxFarad * 1e12} pF is the most at any speed.`
        : `The I2C bus of ${called(first)} is ${plain(bus.lengthM)} m long: its edges take ${two(riseS * 1e9)} ns, and at ${hz / 1e3} kHz ${mostS * 1e9} ns is the most.`,
      todo: 'Slow the clock, shorten the lead, or put a differential extender or a USB adapter between.',
      figures: [
        { label: 'capacitance', value: bus.farad * 1e12, unit: 'pF' },
        { label: 'rise time', value: riseS * 1e9, unit: 'ns' },
      ],
    }),
  ];
}

const DATA: Readonly<Record<string, { readonly lines: readonly string[]; readonly title: string }>> = {
  spi: { lines: ['mosi', 'miso', 'sclk', 'ce'], title: 'SPI bus' },
  'one-wire': { lines: ['data'], title: 'one-wire bus' },
};

function judgeReach(facts: Facts, view: PartView): Verdict[] {
  const bus = view.s.str('bus');
  const data = DATA[bus];
  const lines = data?.lines.filter((t) => facts.isWired(`${view.part.id}.${t}`)) ?? [];
  if (!data || lines.length === 0) return [];
  const subject = part(view.part.id);
  const wires = lines.map((t) => facts.netWires(netAt(facts, view, t)));
  const lengthM = Math.max(...wires.map((list) => list.reduce((sum, w) => sum + facts.wireLengthM(w.id), 0)));
  const mostM = BUS_REACH_M[bus as keyof typeof BUS_REACH_M];
  if (lengthM <= mostM) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      related: [...new Set(wires.flat())].map((w) => wire(w.id)),
      what: `The ${data.title} of ${called(view)} is ${plain(lengthM)} m long; it is good for ${plain(mostM)} m.`,
      todo: 'Bring it beside the computer, or read it over a USB adapter.',
      figures: [{ label: 'bus', value: lengthM, unit: 'm' }],
    }),
  ];
}
