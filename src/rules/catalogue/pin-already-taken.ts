import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { busyGpios } from '../../analysis/freePins.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { movePin } from '../movePin.ts';
import { moversOf, type PinUse, pinName, pinUses } from '../pins.ts';
import { partsOn } from '../trace.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('pin-already-taken', 'E1');
/** Switches that give their pins free, by what takes the pin. */
const SWITCHES: Readonly<Record<string, { readonly key: string; readonly title: string }>> = {
  'the serial console': { key: 'console', title: 'Switch the serial console off' },
  'the two-wire bus': { key: 'i2c', title: 'Switch the I2C bus off' },
  'the four-wire bus': { key: 'spi', title: 'Switch the SPI bus off' },
  'digital audio': { key: 'digitalAudio', title: 'Switch digital sound off' },
};

/** Lines of sensors that a bus is there for. */
const BUS_LINES: Readonly<Record<string, ReadonlySet<string>>> = {
  'the two-wire bus': new Set(['sda', 'scl']),
  'the four-wire bus': new Set(['mosi', 'miso', 'sclk', 'ce']),
};

export const pinAlreadyTaken = defineRule({
  id: 'pin-already-taken',
  code: 'E1',
  level: 'fault',
  title: 'Pin already spoken for',
  why: 'Some pins have a job as soon as the computer starts. A button there is read as noise, and pressed it shorts what the computer sends.',
  source: { text: 'Board maker’s configuration page (read); audio and identification pins from memory', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    pinUses(facts).map((use) => {
      const subject = wire(use.wire.id);
      const what = takenBy(facts, use);
      if (what === null) return fine(subject);
      const there = moversOf(facts, use)[0] ?? talkers(facts, use)[0];
      return found({
        level: 'fault',
        subject,
        related: [part(use.computer.part.id), ...(there ? [part(there.part.id)] : [])],
        what: `${pinName(use)} belongs to ${what}, and ${there ? called(there) : 'something else'} is joined to it.`,
        todo: `Move it to a free pin${SWITCHES[what] ? ', or switch that job off if nobody needs it' : ''}.`,
        data: { what },
      });
    }),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => u.wire.id === finding.subject.id);
    if (!use) return [];
    const repairs: Repair[] = [];
    const move = movePin(facts, use);
    if (move) repairs.push(move);
    const off = SWITCHES[String(finding.data?.what ?? '')];
    if (off) repairs.push({ title: off.title, safe: false, edit: (plan) => setSettings(plan, use.computer.part.id, { [off.key]: false }) });
    return repairs;
  },
});

/** Devices with a serial line on the pin. */
function talkers(facts: Facts, use: PinUse): PartView[] {
  return [...use.nets].flatMap((net) => partsOn(facts, net).filter(({ view }) => view.kind.kind === 'serial-device')).map(({ view }) => view);
}

/** The job that a pin has besides what is joined to it; null when it is free, or joined for that very job. */
function takenBy(facts: Facts, use: PinUse): string | null {
  const what = busyGpios(use.computer).get(use.gpio);
  if (what === undefined) return null;
  // Something that moves the pin is never a partner of that job; else a mode typed for it says that it is.
  const moved = moversOf(facts, use).length > 0;
  // A device of its own on the line gets what the console prints, and the console what it says.
  const console = use.mode === 'serial' && what === 'the serial console' && talkers(facts, use).length === 0;
  const typed = use.mode === 'stopped-signal' || console || use.mode === 'bus';
  const partner =
    typed || [...use.nets].some((net) => partsOn(facts, net).some(({ view, terminal }) => BUS_LINES[what]?.has(terminal) && view.kind.kind === 'bus-device'));
  return partner && !moved ? null : what;
}
