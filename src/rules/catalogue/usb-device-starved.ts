import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import type { Plan } from '../../plan/types.ts';
import { setWire } from '../../plan/wireEdits.ts';
import { coldOhmPerM, copperTempFactor, ohmPerM } from '../../trade/conductors.ts';
import { USB } from '../../trade/loads.ts';
import { type UsbLead, usbLeads } from '../cables.ts';
import { amps, called, defineRule, part, two, verdicts, volts, wire } from '../defineRule.ts';
import { inTurn } from '../fixes.ts';

const { fine, found, unknown } = verdicts('usb-device-starved', 'I2');
/** The thickest supply pair that USB cables are sold with, mm²: AWG 20. */
const THICK_MM2 = 0.5;
/** What is lost less than this is not the cable's doing, V. */
const LOST_V = 0.02;
/** Copper in the cable is taken this warm when a thicker one is chosen, degrees C. */
const WARM_C = 60;

export const usbDeviceStarved = defineRule({
  id: 'usb-device-starved',
  code: 'I2',
  level: 'fault',
  title: 'USB device starved by its cable',
  why: 'The thin supply pair of a cheap cable loses volts both ways. The device then starts, vanishes when it has most to do, and comes back: the classic card reader that “sometimes” works.',
  source: { text: 'USB 2.0: 4.75 V at the port, 4.50 V at a device of over 100 mA, 4.40 V below (from memory of the standard)', grade: 'standard' },
  needs: 'readings',
  check: (facts) =>
    usbLeads(facts).flatMap((lead) => {
      const subject = part(lead.device.part.id);
      const at = arrives(facts, lead);
      if (!at) return [unknown(subject, 'a plan that comes to rest at the lowest supply')];
      if (at.portV < at.leastV) return [];
      if (at.volt >= at.leastV || at.lostV < LOST_V) return [fine(subject)];
      return [
        found({
          level: 'fault',
          subject,
          related: [...lead.wires.map((w) => wire(w.id)), ...lead.cables.map((c) => part(c.part.id))],
          what: `${called(lead.device)} gets ${volts(at.volt)} with ${amps(at.peakA)}: its cable loses ${two(at.lostV)} V of ${volts(at.portV)}, and it needs ${at.leastV.toFixed(2)} V.`,
          todo: 'Take a shorter cable or one with a thicker supply pair, or feed the device from a supply of its own.',
          figures: [
            { label: 'arrives', value: at.volt, unit: 'V' },
            { label: 'lost in the cable', value: at.lostV, unit: 'V' },
            { label: 'needed', value: at.leastV, unit: 'V' },
          ],
          state: 'RUN_STOPPED',
          band: 'low',
        }),
      ];
    }),
  repair: (finding, facts) => {
    const lead = usbLeads(facts).find((l) => l.device.part.id === finding.subject.id);
    const at = lead && arrives(facts, lead);
    if (!lead || !at) return [];
    const wires = lead.wires.filter((w) => (facts.analysis.wires[w.id]?.areaMm2 ?? 1) < THICK_MM2);
    const cables = lead.cables.filter((c) => c.s.num('areaMm2') < THICK_MM2);
    const gainV =
      wires.reduce((sum, w) => sum + savedV(at.peakA, facts.wireLengthM(w.id), facts.analysis.wires[w.id]!.areaMm2, ohmPerM), 0) +
      cables.reduce((sum, c) => sum + savedV(at.peakA, c.s.num('lengthM'), c.s.num('areaMm2'), coldOhmPerM), 0);
    if (wires.length + cables.length === 0 || at.volt + gainV < at.leastV + LOST_V) return [];
    const title = `Take a cable with ${THICK_MM2} mm² (AWG 20) for supply`;
    const steps = [
      ...wires.map((w) => (plan: Plan) => setWire(plan, w.id, { areaMm2: THICK_MM2 })),
      ...cables.map((c) => (plan: Plan) => setSettings(plan, c.part.id, { areaMm2: THICK_MM2 })),
    ];
    return [{ title, safe: true, edit: (plan) => inTurn(plan, 'wire.thicken', title, steps) }];
  },
});

/** What a thicker pair saves out and back, V. Wires are reckoned with the greatest resistance of their size, cables with that of their copper. */
function savedV(amp: number, lengthM: number, mm2: number, ohm: typeof ohmPerM | typeof coldOhmPerM): number {
  const perM = (area: number): number => (ohm === coldOhmPerM ? coldOhmPerM(area) * copperTempFactor(WARM_C) : ohmPerM(area, WARM_C));
  return 2 * amp * lengthM * (perM(mm2) - perM(THICK_MM2));
}

interface Arrives {
  /** At the port: what it gives, but no more than the least that a port must give. */
  readonly portV: number;
  readonly lostV: number;
  readonly volt: number;
  readonly peakA: number;
  readonly leastV: number;
}

function arrives(facts: Facts, lead: UsbLead): Arrives | null {
  const portV = facts.designAcross(lead.port, `${lead.port}~0`);
  const deviceV = facts.designAcross(lead.at, `${lead.at}~0`);
  if (portV === null || deviceV === null) return null;
  const load = lead.device.facts.loads?.find((l) => `${lead.device.part.id}.${l.plus}` === lead.at);
  const peakA = load?.peakA ?? 0;
  const lostV = Math.max(0, portV - deviceV);
  const atPort = Math.min(USB.portMinV, portV);
  return {
    portV: atPort,
    lostV,
    volt: atPort - lostV,
    peakA,
    leastV: peakA > USB.unitLoadA ? USB.deviceMinV : USB.lowPowerDeviceMinV,
  };
}
