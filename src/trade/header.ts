/**
 * The 40-pin header of the computer. Functions, reset pulls: hardware pages and pin utility of the board's maker (read);
 * pin positions, fixed pull-ups and reservations from memory.
 */
import { demand } from './basis.ts';

export interface HeaderPin {
  /** Physical pin, 1..40; odd pins on the inner row. */
  readonly pin: number;
  /** GPIO number, or null for a supply or ground pin. */
  readonly gpio: number | null;
  readonly rail: '5V' | '3V3' | 'GND' | null;
  /** Pull that stands from reset until software changes it. */
  readonly bootPull: 'up' | 'down' | null;
  readonly functions: readonly string[];
  /** Why this pin is to be left free. */
  readonly reserved?: string;
  /** Resistor to 3.3 V soldered on the board, ohm. */
  readonly fixedPullUpOhm?: number;
}

const rail = (pin: number, name: '5V' | '3V3' | 'GND'): HeaderPin => ({ pin, gpio: null, rail: name, bootPull: null, functions: [] });
const io = (pin: number, gpio: number, ...functions: string[]): HeaderPin => ({ pin, gpio, rail: null, bootPull: gpio <= 8 ? 'up' : 'down', functions });
const ADD_ON = 'Identification memory of an add-on board';

export const HEADER: readonly HeaderPin[] = [
  rail(1, '3V3'),
  rail(2, '5V'),
  { ...io(3, 2, 'I2C1 SDA'), fixedPullUpOhm: 1800 },
  rail(4, '5V'),
  { ...io(5, 3, 'I2C1 SCL'), fixedPullUpOhm: 1800 },
  rail(6, 'GND'),
  io(7, 4, 'GPCLK0'),
  io(8, 14, 'UART0 TXD', 'UART1 TXD'),
  rail(9, 'GND'),
  io(10, 15, 'UART0 RXD', 'UART1 RXD'),
  io(11, 17, 'UART0 RTS', 'SPI1 CE1'),
  io(12, 18, 'PCM CLK', 'SPI1 CE0', 'PWM0'),
  io(13, 27),
  rail(14, 'GND'),
  io(15, 22),
  io(16, 23),
  rail(17, '3V3'),
  io(18, 24),
  io(19, 10, 'SPI0 MOSI'),
  rail(20, 'GND'),
  io(21, 9, 'SPI0 MISO'),
  io(22, 25),
  io(23, 11, 'SPI0 SCLK'),
  io(24, 8, 'SPI0 CE0'),
  rail(25, 'GND'),
  io(26, 7, 'SPI0 CE1'),
  { ...io(27, 0, 'I2C0 SDA'), reserved: ADD_ON },
  { ...io(28, 1, 'I2C0 SCL'), reserved: ADD_ON },
  io(29, 5, 'GPCLK1'),
  rail(30, 'GND'),
  io(31, 6, 'GPCLK2'),
  io(32, 12, 'PWM0'),
  io(33, 13, 'PWM1'),
  rail(34, 'GND'),
  io(35, 19, 'PCM FS', 'SPI1 MISO', 'PWM1'),
  io(36, 16, 'UART0 CTS', 'SPI1 CE2'),
  io(37, 26),
  io(38, 20, 'PCM DIN', 'SPI1 MOSI', 'GPCLK0'),
  rail(39, 'GND'),
  io(40, 21, 'PCM DOUT', 'SPI1 SCLK', 'GPCLK1'),
];

/** The pin at a physical position. @throws RangeError outside 1..40. */
export function headerPin(pin: number): HeaderPin {
  const found = HEADER[pin - 1];
  demand(found !== undefined, 'Header pin must be a whole number from 1 to 40', pin);
  return found;
}

/** The pin that carries a GPIO. @throws RangeError outside 0..27. */
export function gpioPin(gpio: number): HeaderPin {
  const found = HEADER.find((p) => p.gpio === gpio);
  demand(found !== undefined, 'GPIO must be a whole number from 0 to 27', gpio);
  return found;
}

/** GPIOs without a second duty, best first (common practice). */
export const GOOD_GPIOS: readonly number[] = [5, 6, 16, 17, 22, 23, 24, 25, 26, 27, 12, 13, 4];

/** GPIOs that an interface takes once it is switched on. */
export const consoleRoles = { txd: 14, rxd: 15 } as const;
export const i2cRoles = { sda: 2, scl: 3 } as const;
export const spiRoles = { mosi: 10, miso: 9, sclk: 11, ce0: 8, ce1: 7 } as const;
export const digitalAudioRoles = { clk: 18, fs: 19, din: 20, dout: 21 } as const;
/** Taken low, it wakes a halted board (board maker's overlay notes, read). */
export const WAKE_GPIO = 3;
/** Default of the power-off signal, which takes the wake function away (read). */
export const POWER_OFF_GPIO = 26;

/** Ground pins nearest to a pin first, for the return of a signal wire. */
export function nearestGrounds(pin: number): readonly number[] {
  headerPin(pin);
  const row = (p: number): number => Math.ceil(p / 2);
  return HEADER.filter((p) => p.rail === 'GND')
    .map((p) => p.pin)
    .sort((a, b) => Math.abs(row(a) - row(pin)) - Math.abs(row(b) - row(pin)) || a - b);
}
