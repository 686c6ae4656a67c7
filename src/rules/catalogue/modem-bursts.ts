import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { type Burst, burstDipV, limitedDipV } from '../../trade/links.ts';
import { USB } from '../../trade/loads.ts';
import { type UsbLead, usbLeads } from '../cables.ts';
import { amps, called, defineRule, part, plain, verdicts, volts, wire } from '../defineRule.ts';

const { fine, found, unknown } = verdicts('modem-bursts', 'I9');
/** Capacitors on sale, F, with the series resistance that low-impedance ones of that size have, ohm (from memory). */
const STOCKED = [
  { farad: 470e-6, ohm: 0.06 },
  { farad: 1000e-6, ohm: 0.03 },
  { farad: 2200e-6, ohm: 0.02 },
  { farad: 4700e-6, ohm: 0.015 },
] as const;

export const modemBursts = defineRule({
  id: 'modem-bursts',
  code: 'I9',
  level: 'fault',
  title: 'Modem bursts pull its supply down',
  why: 'A 2G modem takes two amps for half a thousandth of a second, over and over. No meter shows it. The port gives less, the voltage caves in, and the modem drops off the bus whenever the signal is weak.',
  source: {
    text: 'Bursts of one slot in eight (module makers’ sheets, read); 4.50 V at the device, USB 2.0 (from memory); the rest calculated',
    grade: 'data sheet',
  },
  needs: 'readings',
  check: (facts) =>
    usbLeads(facts).flatMap((lead) => {
      if (lead.device.kind.kind !== 'usb-device' || lead.device.s.num('burstA') <= 0) return [];
      const subject = part(lead.device.part.id);
      const supply = supplyOf(facts, lead);
      if (!supply) return [unknown(subject, 'a plan that comes to rest at the lowest supply')];
      const burst = burstOf(lead);
      const dipV = dip(supply, burst);
      if (supply.portV - dipV >= USB.deviceMinV) return [fine(subject)];
      const limited = burst.amp > supply.limitA;
      const left = Math.max(0, supply.portV - dipV);
      return [
        found({
          level: 'fault',
          subject,
          related: [...lead.wires.map((w) => wire(w.id)), ...lead.cables.map((c) => part(c.part.id)), part(lead.host.part.id)],
          what: `In bursts of ${amps(burst.amp)} ${called(lead.device)} is left with ${left > 0 ? volts(left) : 'nothing'} of ${volts(supply.portV)}; it needs ${USB.deviceMinV.toFixed(2)} V${limited ? `. The port gives ${amps(supply.limitA)}, and ${burst.farad > 0 ? `${plain(burst.farad * 1e6)} µF must give the rest` : 'no capacitor gives the rest'}` : ''}.`,
          todo: limited
            ? 'Put a large low-impedance capacitor at its plug, or give it a supply of its own.'
            : 'Lower the resistance of its path: a short, thick cable.',
          figures: [
            { label: 'dip', value: Number.isFinite(dipV) ? dipV : supply.portV, unit: 'V' },
            { label: 'path', value: supply.pathOhm, unit: 'Ω' },
          ],
          state: 'RUN_STOPPED',
          band: 'low',
        }),
      ];
    }),
  repair: (finding, facts) => {
    const lead = usbLeads(facts).find((l) => l.device.part.id === finding.subject.id);
    const supply = lead && supplyOf(facts, lead);
    if (!lead || !supply) return [];
    const fit = STOCKED.find((c) => supply.portV - dip(supply, { ...burstOf(lead), farad: c.farad, esrOhm: c.ohm }) >= USB.deviceMinV);
    if (!fit) return [];
    return [
      {
        title: `Solder ${plain(fit.farad * 1e6)} µF, low impedance, to its supply`,
        safe: false,
        edit: (plan) => setSettings(plan, lead.device.part.id, { bufferF: fit.farad, bufferOhm: fit.ohm }),
      },
    ];
  },
});

interface Supply {
  readonly portV: number;
  readonly pathOhm: number;
  readonly limitA: number;
}

/** What the port gives at its least, the resistance of the way out and back, and its current limit. */
function supplyOf(facts: Facts, lead: UsbLead): Supply | null {
  const portV = facts.designAcross(lead.port, `${lead.port}~0`);
  const deviceV = facts.designAcross(lead.at, `${lead.at}~0`);
  const amp = Math.abs(facts.designElementA(lead.device.part.id, 'load') ?? 0);
  if (portV === null || deviceV === null || amp < 1e-4) return null;
  const source = lead.host.facts.sources?.find((s) => `${lead.host.part.id}.${s.terminal}` === lead.port);
  return {
    portV: Math.min(USB.portMinV, portV),
    pathOhm: Math.max(0, portV - deviceV) / amp,
    limitA: source?.limitA ?? Number.POSITIVE_INFINITY,
  };
}

function burstOf(lead: UsbLead): Burst {
  const s = lead.device.s;
  return { amp: s.num('burstA'), seconds: s.num('burstS'), farad: s.num('bufferF'), esrOhm: s.num('bufferOhm') };
}

function dip(supply: Supply, burst: Burst): number {
  return burst.amp > supply.limitA ? limitedDipV(burst, supply.limitA) : burstDipV(burst, supply.pathOhm);
}
