import type { Element, Resistor } from '../../circuit/types.ts';
import { CASE_OHM } from '../../trade/grounds.ts';
import { HEADER, type HeaderPin } from '../../trade/header.ts';
import { LOGIC, RAIL3 } from '../../trade/logic.ts';
import { JOIN_OHM, SCREEN_OHM, VIDEO_OHM } from '../joints.ts';
import type { Settings, Situation } from '../types.ts';
import { V0, V5, V33 } from './devices.ts';
import { boardOf, pinMode } from './settings.ts';

export const USB_PORTS = [1, 2, 3, 4] as const;
/** Current-limiting switch of the USB ports, ohm (common practice, no source). */
export const USB_PORT_OHM = 0.1;
/** What hangs on the 3.3 V rail inside, on or off, ohm. Assumed: off boards differ and no maker states it. */
const RAIL_LOAD_OHM = 100;
/** Diode that keeps the rail's source from sinking: 0.3 V at 0.1 A. The source makes up for it at the inner load's 33 mA. */
const RAIL_DIODE = { vF: 0.3, iF: 0.1, n: 1, tC: 25, ohm: 0.01 } as const;
const RAIL_SOURCE_V = RAIL3.typicalV + RAIL_DIODE.vF - 0.02569 * Math.log((RAIL_DIODE.iF * RAIL_LOAD_OHM) / RAIL3.typicalV);
/** Clamp diodes of a pin: 0.6 V at 1 mA behind some ohms (common practice, no source). */
const CLAMP = { vF: 0.6, iF: 1e-3, n: 1, ohm: 20 } as const;
/** Below this the board draws nothing worth the name, V (common practice, no source). */
const DEAD_V = 3;

/** Everything electrical inside the computer. Which elements there are depends on settings and wires, never on states. */
export function computerElements(s: Settings, situation: Situation): Element[] {
  const powered = situation.on('powered');
  // Halted and stopping together is the moment in which it decides to start again: its pins stay as they are.
  const halted = powered && situation.on('halted') && !situation.on('stopping');
  const booted = powered && situation.on('booted');
  return [
    ...joins(s, situation),
    { kind: 'current', id: 'load', a: V5, b: V0, amp: boardA(s, situation.load, { powered, booted, halted }), minV: DEAD_V },
    ...(s.flag('caseBonded') ? [{ kind: 'resistor' as const, id: 'case', a: V0, b: '@chassis', ohm: CASE_OHM }] : []),
    ...rail3(powered),
    ...usbPorts(s, situation, powered),
    ...video(situation),
    ...HEADER.filter((p) => p.gpio !== null && situation.wired(`${p.pin}`)).flatMap((p) => pinElements(s, p, { powered, booted, halted }, situation)),
  ];
}

interface Stage {
  readonly powered: boolean;
  readonly booted: boolean;
  readonly halted: boolean;
}

/** What the bare board draws at 5 V, A: its start figure until it is up; then heavy is its peak, typical the busy average, light the idle figure. */
function boardA(s: Settings, load: Situation['load'], { powered, booted, halted }: Stage): number {
  const board = boardOf(s);
  if (!powered) return 0;
  if (halted) return board.offA;
  if (!booted) return board.bootA;
  return { heavy: board.peakA, typical: board.busyA, light: board.idleA }[load];
}

/** Header pins of one rail are joined on the board; only wired ones need a node of their own. */
function joins(s: Settings, { wired }: Situation): Resistor[] {
  const join = (id: string, to: string): Resistor => ({ kind: 'resistor', id: `join${id}`, a: id, b: to, ohm: JOIN_OHM });
  const rails = HEADER.filter((p) => p.rail !== null && wired(`${p.pin}`)).map((p) => ({
    id: `${p.pin}`,
    to: p.rail === '5V' ? V5 : p.rail === '3V3' ? V33 : V0,
  }));
  const header = rails.filter(({ id, to }) => id !== to).map(({ id, to }) => join(id, to));
  return s.str('feed') === 'socket' ? [join('vbus', V5), join('0v', V0), ...header] : header;
}

/**
 * The 3.3 V rail: a source only while powered and never a sink; off, it is a plain load, so that back-feeding through
 * pins shows. What leaves it are milliamps; the board's own draw is all in `load`.
 */
function rail3(powered: boolean): Element[] {
  return [
    {
      kind: 'source',
      id: 'rail3',
      a: '~rail3',
      b: V0,
      volt: powered ? RAIL_SOURCE_V : 0,
      ohm: 0.05,
      tol: { volt: [RAIL3.minV / RAIL3.typicalV, RAIL3.maxV / RAIL3.typicalV] },
    },
    { kind: 'diode', id: 'rail3Diode', a: '~rail3', b: V33, ...RAIL_DIODE },
    { kind: 'resistor', id: 'rail3Load', a: V33, b: V0, ohm: RAIL_LOAD_OHM, tol: { ohm: [0.3, 3] } },
  ];
}

function usbPorts(s: Settings, { wired }: Situation, powered: boolean): Element[] {
  const ohm = powered || s.flag('usbBackfeed') ? USB_PORT_OHM : Number.POSITIVE_INFINITY;
  return USB_PORTS.filter((k) => wired(`usb${k}`)).flatMap((k) => [
    { kind: 'resistor', id: `usb${k}`, a: V5, b: `usb${k}`, ohm },
    { kind: 'resistor', id: `usb${k}Return`, a: `usb${k}~0`, b: V0, ohm: SCREEN_OHM },
  ]);
}

function video({ wired }: Situation): Element[] {
  if (!wired('video')) return [];
  return [
    { kind: 'source', id: 'video', a: 'video', b: V0, volt: 0, ohm: VIDEO_OHM },
    { kind: 'resistor', id: 'videoScreen', a: 'video~0', b: V0, ohm: SCREEN_OHM },
  ];
}

/**
 * One wired pin: clamp diodes to 3.3 V and 0 V, the pull, and an output stage to either rail. An output is driven by
 * nothing until the computer is up, then high, and low once it has stopped; the power-off pin is low until it has stopped,
 * then high; a sending serial pin idles high.
 */
function pinElements(s: Settings, p: HeaderPin, { powered, booted, halted }: Stage, { ambientC }: Situation): Element[] {
  const pin = `${p.pin}`;
  const gpio = p.gpio!;
  const mode = pinMode(s, gpio);
  const logic = LOGIC[boardOf(s).logic];
  const sends = mode === 'serial' && p.functions.some((f) => f.includes('TXD'));
  const high = powered && (mode === 'stopped-signal' ? halted : (mode === 'out' && booted) || (sends && !halted));
  const low = powered && (mode === 'stopped-signal' ? !halted : mode === 'out' && halted);
  const open = (closed: boolean, ohm: number): number => (closed ? ohm : Number.POSITIVE_INFINITY);
  const pull = { ohm: Math.sqrt(logic.pullMinOhm * logic.pullMaxOhm), tol: { ohm: pullSpread(logic) } };
  const drive = driveOhm(s);
  const fixed: Element[] =
    p.fixedPullUpOhm === undefined ? [] : [{ kind: 'resistor', id: `fixed${gpio}`, a: pin, b: V33, ohm: p.fixedPullUpOhm, tol: { ohm: 0.05 } }];
  return [
    { kind: 'diode', id: `clampHi${gpio}`, a: pin, b: V33, ...CLAMP, tC: ambientC },
    { kind: 'diode', id: `clampLo${gpio}`, a: V0, b: pin, ...CLAMP, tC: ambientC },
    {
      kind: 'resistor',
      id: `pull${gpio}`,
      a: pin,
      b: mode === 'in-down' ? V0 : V33,
      ohm: open(powered && (mode === 'in-up' || mode === 'in-down'), pull.ohm),
      tol: pull.tol,
    },
    ...fixed,
    { kind: 'resistor', id: `drive${gpio}`, a: V33, b: pin, ohm: open(high, drive), tol: { ohm: [0.4, 1] } },
    { kind: 'resistor', id: `sink${gpio}`, a: pin, b: V0, ohm: open(low, drive), tol: { ohm: [0.4, 1] } },
  ];
}

function pullSpread(logic: { readonly pullMinOhm: number; readonly pullMaxOhm: number }): readonly [number, number] {
  const spread = Math.sqrt(logic.pullMaxOhm / logic.pullMinOhm);
  return [1 / spread, spread];
}

/** Greatest resistance of an output stage at its default drive, ohm: what it loses at its stated current. */
export function driveOhm(s: Settings): number {
  const { vOlMaxV, driveDefaultA } = LOGIC[boardOf(s).logic];
  return vOlMaxV / driveDefaultA;
}
