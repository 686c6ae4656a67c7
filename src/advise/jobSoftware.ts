import type { PartView } from '../analysis/factsTypes.ts';
import type { PinRow } from '../analysis/types.ts';
import { plain } from '../parts/values.ts';
import { consoleRoles, digitalAudioRoles, gpioPin, i2cRoles, spiRoles } from '../trade/header.ts';
import type { Results } from './types.ts';

/** What must be set on a computer, with a name that changes when the wanted setting does. */
export interface SoftwareLine {
  readonly key: string;
  readonly text: string;
}

/** Parts of the system that take pins once they are on: setting, name, pins. */
const SERVICES = [
  ['i2c', 'I2C bus', Object.values(i2cRoles)],
  ['spi', 'SPI bus', Object.values(spiRoles)],
  ['digitalAudio', 'digital sound', Object.values(digitalAudioRoles)],
] as const;

const MODES: Readonly<Record<string, string>> = {
  in: 'set it as an input, with its own pulls off',
  'in-up': 'set it as an input, with its own pull-up on',
  'in-down': 'set it as an input, with its own pull-down on',
  out: 'set it as an output',
  serial: 'give it to the serial line',
  bus: 'give it to the bus',
};

/** What this plan wants of the software of one computer, in the order in which one sets it up. */
export function softwareLines(results: Results, computer: PartView): SoftwareLine[] {
  const pins = results.analysis.pins.filter((p) => p.part === computer.part.id && p.gpio !== null);
  return [...keyLines(computer), ...stopLines(computer), ...pinLines(computer, pins), ...serviceLines(computer, pins), ...dimLines(results)];
}

function keyLines({ s }: PartView): SoftwareLine[] {
  const gpio = Math.round(s.num('senseGpio'));
  if (gpio === 0) return [];
  const level = s.str('senseActive') === 'low-when-on' ? 'low' : 'high';
  const lines = [{ key: `sense:${gpio}:${level}`, text: `Let the program watch ${pinName(gpio)}: it reads ${level} while the key is on.` }];
  const filterS = s.num('filterS');
  if (filterS > 0) lines.push({ key: `filter:${filterS}`, text: `Let it believe the key only after the pin has been steady for ${plain(filterS)} s.` });
  return lines;
}

function stopLines({ s }: PartView): SoftwareLine[] {
  const lines: SoftwareLine[] = [];
  if (Math.round(s.num('senseGpio')) !== 0) {
    lines.push({
      key: `stop:${s.num('appS')}:${s.num('osS')}`,
      text: `After key-off: close the programs within ${plain(s.num('appS'))} s, then stop the system within ${plain(s.num('osS'))} s. Time it with a watch.`,
    });
    lines.push(
      s.flag('restartsOnKey')
        ? { key: 'restart', text: 'When the key comes back while it stops, let it start again instead of halting.' }
        : { key: 'halt', text: 'It is planned to halt even when the key comes back meanwhile: it then starts only once its power has been away.' },
    );
  }
  const off = Math.round(s.num('powerOffPin'));
  if (off !== 0)
    lines.push({ key: `stopped:${off}`, text: `Let the system tell on ${pinName(off)} that it has stopped: low while it runs, high once its power may go.` });
  if (s.str('wakes') === 'gpio3') lines.push({ key: 'wake', text: `Leave ${pinName(3)} as a wake-up: pulled low, it starts the halted computer.` });
  if (s.str('storage') === 'protected') lines.push({ key: 'storage', text: 'Make its system read-only, so that a sudden loss of power does no harm.' });
  return lines;
}

function pinLines({ s }: PartView, pins: readonly PinRow[]): SoftwareLine[] {
  const own = new Set([Math.round(s.num('powerOffPin'))]);
  const lines = pins.flatMap((pin) => {
    const gpio = pin.gpio as number;
    const mode = s.str(`gpio${gpio}Mode`);
    const what = MODES[mode === 'automatic' ? 'in' : mode];
    if (own.has(gpio) || what === undefined) return [];
    const joined = pin.label === '' ? '' : `, ${pin.label}`;
    return [{ key: `pin:${gpio}:${mode}`, text: `${pinName(gpio)}${joined}: ${what}.` }];
  });
  const inputs = pins.some((p) => s.str(`gpio${p.gpio}Mode`).startsWith('in'));
  const filterS = s.num('inputFilterS');
  if (inputs && filterS > 0) lines.push({ key: `inputs:${filterS}`, text: `Let other inputs count only once they have been steady for ${plain(filterS)} s.` });
  if (s.flag('strongPins')) lines.push({ key: 'strong', text: 'Set its output pins to their strongest drive.' });
  return lines;
}

/** Services that take pins: on where the plan says so, off where their pins have another job. */
function serviceLines({ s }: PartView, pins: readonly PinRow[]): SoftwareLine[] {
  const used = (gpios: readonly number[]): readonly number[] => gpios.filter((g) => pins.some((p) => p.gpio === g));
  const lines: SoftwareLine[] = [];
  const serial = used(Object.values(consoleRoles));
  if (serial.length > 0) lines.push({ key: 'console', text: `Switch the serial console off: ${gpioList(serial)} ${has(serial)} another job.` });
  for (const [setting, name, gpios] of SERVICES) {
    const mine = used(gpios);
    if (s.flag(setting)) lines.push({ key: `${setting}:on`, text: `Switch the ${name} on (${gpioList(gpios)}).` });
    else if (mine.some((g) => s.str(`gpio${g}Mode`) !== 'bus'))
      lines.push({ key: `${setting}:off`, text: `Leave the ${name} off: ${gpioList(mine)} ${has(mine)} another job.` });
  }
  return lines;
}

function dimLines({ filled, analysis }: Results): SoftwareLine[] {
  const dimmed = new Set(analysis.pins.flatMap((p) => (p.gpio !== null && p.joined !== null ? [p.joined] : [])));
  return Object.values(filled.parts).flatMap((part) => {
    const hz = part.settings.dimHz;
    if (typeof hz !== 'number' || hz === 0 || !dimmed.has(part.id)) return [];
    return [{ key: `dim:${part.id}:${hz}`, text: `Dim ${part.name ?? 'the display'} with ${plain(hz)} pulses a second.` }];
  });
}

function pinName(gpio: number): string {
  return `GPIO ${gpio} (pin ${gpioPin(gpio).pin})`;
}

function gpioList(gpios: readonly number[]): string {
  return `GPIO ${[...gpios].sort((a, b) => a - b).join(', ')}`;
}

const has = (list: readonly unknown[]): string => (list.length === 1 ? 'has' : 'have');
