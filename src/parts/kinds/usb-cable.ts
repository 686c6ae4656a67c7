import { coldOhmPerM, copperTempFactor, TERMINATION_OHM } from '../../trade/conductors.ts';
import { cableBody } from '../cable.ts';
import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import type { Settings } from '../types.ts';

/** A passive USB cable with its two plugs: what its supply pair loses is what the device misses. */
export const usbCable = definePart({
  kind: 'usb-cable',
  title: 'USB cable',
  group: 'Compute',
  about: 'A ready-made USB cable. Thin and long ones starve the device at their end.',
  words: ['lead', 'extension'],
  letter: 'W',
  settings: [
    amount('lengthM', 'Length', 'm', [0.05, 1.8, 20], 'common length on sale, no source', { stocked: [0.5, 1, 1.8, 3, 5] }),
    amount('areaMm2', 'Size of the supply pair', 'mm²', [0.05, 0.5, 1.5], 'AWG 20, printed on better cables; AWG 28 is 0.08 mm², AWG 24 is 0.2 mm²', {
      help: 'Read the print on the jacket: 28AWG/2C means a thin supply pair. Not printed: assume 0.08 mm².',
      stocked: [0.08, 0.2, 0.5],
    }),
    yesNo('fast', 'USB 3: nine conductors, blue plugs', false, 'most devices of such builds are content with USB 2; common practice, no source', {
      help: 'At the higher speed a plain cable reaches less far.',
      rare: true,
    }),
  ],
  terminals: () => [
    { id: 'host', label: 'host', title: 'Plug at the computer', side: 'left', form: 'usb', role: 'usb-data', flow: 'in', nominalV: 5, required: true },
    { id: 'device', label: 'device', title: 'Plug at the device', side: 'right', form: 'usb', role: 'usb-data', flow: 'out', nominalV: 5, required: true },
  ],
  symbol: () => cableBody('host', 'device', false),
  behave: (s, { ambientC }) => {
    const ohm = conductorOhm(s, ambientC);
    return {
      elements: [
        { kind: 'resistor', id: 'vbus', a: 'host', b: 'device', ohm },
        { kind: 'resistor', id: 'ground', a: 'host~0', b: 'device~0', ohm },
      ],
    };
  },
  facts: (s) => ({
    links: [
      { a: 'host', b: 'device', type: 'conductor', ohm: conductorOhm(s, 20) },
      { a: 'host~0', b: 'device~0', type: 'conductor', ohm: conductorOhm(s, 20) },
    ],
  }),
  subtitle: (s) => `${s.num('lengthM')} m, ${s.num('areaMm2')} mm²`,
  spec: (s) => `USB cable, at most ${s.num('lengthM')} m, supply pair ${s.num('areaMm2')} mm² or more, screened`,
});

/** One conductor with a new plug contact at each end, ohm. */
function conductorOhm(s: Settings, tempC: number): number {
  return s.num('lengthM') * coldOhmPerM(s.num('areaMm2')) * copperTempFactor(tempC) + 2 * TERMINATION_OHM.plugNew;
}
