import { HEADER, type HeaderPin } from '../../trade/header.ts';
import { computerDevices, V0, V33 } from '../computer/devices.ts';
import { computerElements, USB_PORTS } from '../computer/elements.ts';
import { computerFacts, supplyPair } from '../computer/facts.ts';
import { computerSymbol } from '../computer/geometry.ts';
import { boardOf, computerSettings, stopS } from '../computer/settings.ts';
import { definePart } from '../definePart.ts';
import type { Settings, TerminalDef } from '../types.ts';
import { plain, withUnit } from '../values.ts';

export { COMPUTER_H, COMPUTER_W, HEADER_CELLS, HEADER_TOP } from '../computer/geometry.ts';

/** The small computer itself, with its 40-pin header. */
export const computer = definePart({
  kind: 'computer',
  title: 'Computer',
  group: 'Compute',
  about: 'The small computer with its 40-pin header, drawn as you see it from the wiring side; cell 1 has the cut corner.',
  words: ['40-pin', 'board', 'header', 'gpio', 'single-board', 'pins'],
  letter: 'A',
  settings: computerSettings,
  terminals: computerTerminals,
  symbol: (s) => computerSymbol(s.str('feed') === 'socket'),
  behave: (s, situation) => ({ elements: computerElements(s, situation), devices: computerDevices(s, situation) }),
  facts: computerFacts,
  subtitle: (s) => boardOf(s).title,
  spec: (s) => `${boardOf(s).title} with 40-pin header; supply ${withUnit(boardOf(s).recommendedA, 'A')} at 5 V; stops within ${plain(stopS(s))} s of key off`,
  meterPoints: (s) => [
    { ...supplyPair(s), what: '4.75 to 5.25 V, plugged in and running' },
    { plus: V33, minus: V0, what: '3.3 V, within 0.16 V' },
  ],
});

function computerTerminals(s: Settings): TerminalDef[] {
  const ports = USB_PORTS.map(
    (k): TerminalDef => ({ id: `usb${k}`, label: `USB ${k}`, title: `USB port ${k}`, side: 'bottom', form: 'usb', role: 'usb-data', flow: 'out', nominalV: 5 }),
  );
  const socket: TerminalDef[] = [
    { id: 'vbus', label: '5 V', title: 'Power socket, 5 V', side: 'right', form: 'socket', role: 'rail5', flow: 'in', nominalV: 5, required: true },
    { id: '0v', label: '0 V', title: 'Power socket, 0 V', side: 'right', form: 'socket', role: 'ground', flow: 'in', required: true },
  ];
  return [
    ...HEADER.map((p) => headerTerminal(p, s.str('feed') === 'header')),
    ...ports,
    { id: 'video', label: 'video', title: 'Picture out', side: 'left', form: 'video', role: 'video', flow: 'out' },
    ...(s.str('feed') === 'socket' ? socket : []),
  ];
}

function headerTerminal(p: HeaderPin, headerFed: boolean): TerminalDef {
  const base = { id: `${p.pin}`, label: `${p.pin}`, side: p.pin % 2 === 1 ? 'left' : 'right', form: 'header' } as const;
  switch (p.rail) {
    case '5V':
      return { ...base, title: `Pin ${p.pin}, 5 V`, role: 'rail5', flow: headerFed ? 'in' : 'out', nominalV: 5 };
    case '3V3':
      return { ...base, title: `Pin ${p.pin}, 3.3 V`, role: 'rail3', flow: 'out', nominalV: 3.3 };
    case 'GND':
      return { ...base, title: `Pin ${p.pin}, 0 V`, role: 'ground' };
    default:
      return { ...base, title: `Pin ${p.pin}, GPIO ${p.gpio}${p.reserved ? `, reserved: ${p.reserved.toLowerCase()}` : ''}`, role: 'signal' };
  }
}
