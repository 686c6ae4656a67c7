import type { Id, Plan } from '../plan/types.ts';
import { GOOD_GPIOS, gpioPin, type HeaderPin } from '../trade/header.ts';
import type { PartView } from './factsTypes.ts';
import { buildGraph } from './graph.ts';

/** GPIOs that carry another job on this computer as it is set. */
export function busyGpios(view: PartView): ReadonlyMap<number, string> {
  const busy = new Map<number, string>([
    [0, 'the add-on identification memory'],
    [1, 'the add-on identification memory'],
  ]);
  const claim = (on: boolean, gpios: readonly number[], what: string): void => {
    if (on) for (const g of gpios) busy.set(g, what);
  };
  claim(view.s.flag('console'), [14, 15], 'the serial console');
  claim(view.s.flag('i2c'), [2, 3], 'the two-wire bus');
  claim(view.s.flag('spi'), [7, 8, 9, 10, 11], 'the four-wire bus');
  claim(view.s.flag('digitalAudio'), [18, 19, 20, 21], 'digital audio');
  if (view.s.num('powerOffPin') > 0) busy.set(view.s.num('powerOffPin'), 'the power-off signal');
  return busy;
}

/** The next good free GPIO of a computer in the trade's order of preference, of those that fit; null when none is left. */
export function nextFreePin(plan: Plan, computer: Id, fits: (pin: HeaderPin) => boolean = () => true): { pin: number; gpio: number } | null {
  const graph = buildGraph(plan);
  const view = graph.views.get(computer);
  if (!view) return null;
  const busy = busyGpios(view);
  for (const gpio of GOOD_GPIOS) {
    const cell = gpioPin(gpio);
    if (!fits(cell)) continue;
    const { pin } = cell;
    const node = graph.indexOf.get(`${computer}.${pin}`);
    const used = node !== undefined && graph.at[node]!.some((e) => graph.edges[e]!.wire);
    if (!used && !busy.has(gpio)) return { pin, gpio };
  }
  return null;
}
