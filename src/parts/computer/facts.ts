import { BOARD_SUPPLY } from '../../trade/boards.ts';
import { CASE_OHM } from '../../trade/grounds.ts';
import { HEADER } from '../../trade/header.ts';
import { LOGIC } from '../../trade/logic.ts';
import type { Link, LoadFact, PartFacts, Settings, SourceFact } from '../types.ts';
import { V0, V5, V33 } from './devices.ts';
import { driveOhm, USB_PORT_OHM, USB_PORTS } from './elements.ts';
import { boardOf } from './settings.ts';

/** What the board's 3.3 V regulator gives at most to the header, A (assumed; makers state none). */
const RAIL3_LIMIT_A = 0.5;

/** Where the computer takes its 5 V. */
export function supplyPair(s: Settings): { readonly plus: string; readonly minus: string } {
  return s.str('feed') === 'socket' ? { plus: 'vbus', minus: '0v' } : { plus: V5, minus: V0 };
}

/** The computer for loads, protection and polarity: one load, and a source of its own for each thing it feeds. */
export function computerFacts(s: Settings): PartFacts {
  const board = boardOf(s);
  const pair = supplyPair(s);
  const load: LoadFact = {
    ...pair,
    label: 'Computer',
    nominalV: 5,
    minV: BOARD_SUPPLY.minV,
    maxV: BOARD_SUPPLY.maxV,
    // Absolute limit of 5 V logic parts (from memory); no board maker states one.
    absMaxV: 6,
    peakA: board.peakA,
    heatA: board.busyA,
  };
  return { loads: [load], sources: sources(s), links: links(s), polar: [{ ...pair, what: 'computer' }] };
}

function sources(s: Settings): SourceFact[] {
  const board = boardOf(s);
  const { driveMaxA } = LOGIC[board.logic];
  const pinOhm = driveOhm(s);
  return [
    { terminal: V33, returns: V0, kind: 'rail', nominalV: 3.3, limitA: RAIL3_LIMIT_A, limitAssumed: true, maxOhm: 0.5, minOhm: 0.05 },
    ...USB_PORTS.map((k) => ({
      terminal: `usb${k}`,
      returns: `usb${k}~0`,
      kind: 'usb' as const,
      nominalV: 5,
      // All ports share one limiter: any of them can have the whole of it.
      limitA: board.usbTotalA,
      maxOhm: 2 * USB_PORT_OHM,
      minOhm: USB_PORT_OHM / 2,
    })),
    ...HEADER.filter((p) => p.gpio !== null).map((p) => ({
      terminal: `${p.pin}`,
      returns: V0,
      kind: 'pin' as const,
      nominalV: 3.3,
      limitA: driveMaxA,
      maxOhm: pinOhm,
      minOhm: 0.4 * pinOhm,
    })),
  ];
}

function links(s: Settings): Link[] {
  const join = (a: string, b: string): Link => ({ a, b, type: 'join' });
  const rails = HEADER.flatMap((p) => {
    const to = p.rail === '5V' ? V5 : p.rail === '3V3' ? V33 : p.rail === 'GND' ? V0 : null;
    return to === null || to === `${p.pin}` ? [] : [join(`${p.pin}`, to)];
  });
  const bond: Link[] = s.flag('caseBonded') ? [{ a: V0, b: '@chassis', type: 'conductor', ohm: CASE_OHM }] : [];
  const socket = s.str('feed') === 'socket' ? [join('vbus', V5), join('0v', V0)] : [];
  return [...socket, ...rails, ...USB_PORTS.map((k) => join(`usb${k}~0`, V0)), join('video~0', V0), ...bond];
}
