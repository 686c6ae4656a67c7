import type { Facts } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { USB_NEAR_NOISE_M } from '../../trade/links.ts';
import { USB } from '../../trade/loads.ts';
import { type UsbLead, usbLeads } from '../cables.ts';
import { called, defineRule, part, plain, verdicts, wire } from '../defineRule.ts';
import { inTurn } from '../fixes.ts';

const { fine, found } = verdicts('usb-cable-too-long', 'I1');

export const usbCableTooLong = defineRule({
  id: 'usb-cable-too-long',
  code: 'I1',
  level: 'fault',
  title: 'USB cable too long',
  why: 'Answers on USB must be back within a set time, and every metre of cable uses some of it up. Too long a cable works on the desk and drops the device when it is cold, hot or shaken.',
  source: { text: 'USB 2.0: 5 m in summaries of the standard (read); USB 3: 3 m (second hand)', grade: 'standard' },
  needs: 'graph',
  explains: ['usb-device-starved'],
  check: (facts) =>
    usbLeads(facts).map((lead) => {
      const subject = part(lead.device.part.id);
      const fast = lead.run.cables.some((c) => c.s.flag('fast'));
      const mostM = fast ? USB.usb3CableMaxM : USB.cableMaxM;
      const noisy = inNoise(facts, lead) && lead.run.lengthM > USB_NEAR_NOISE_M;
      if (lead.run.lengthM <= mostM && !noisy) return fine(subject);
      const over = lead.run.lengthM > mostM;
      return found({
        level: over ? 'fault' : 'advice',
        subject,
        related: [...lead.run.wires.map((w) => wire(w.id)), ...lead.run.cables.map((c) => part(c.part.id))],
        what: over
          ? `${called(lead.device)} hangs on ${plain(lead.run.lengthM)} m of plain USB cable; ${plain(mostM)} m is the most for ${fast ? 'USB 3' : 'USB 2'}.`
          : `${called(lead.device)} hangs on ${plain(lead.run.lengthM)} m of USB cable that ends in the engine bay; near ignition and injectors keep it below ${USB_NEAR_NOISE_M} m.`,
        todo: 'Put a powered hub or an active cable half way, bring the computer nearer, or use a network link.',
        figures: [
          { label: 'cable', value: lead.run.lengthM, unit: 'm' },
          { label: 'most', value: over ? mostM : USB_NEAR_NOISE_M, unit: 'm' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const lead = usbLeads(facts).find((l) => l.device.part.id === finding.subject.id);
    const fast = lead?.run.cables.filter((c) => c.s.flag('fast')) ?? [];
    if (!lead || fast.length === 0 || lead.run.lengthM > USB.cableMaxM || inNoise(facts, lead)) return [];
    const title = 'Use a USB 2 cable: slower, but it reaches';
    const steps = fast.map((c) => (plan: Parameters<typeof setSettings>[0]) => setSettings(plan, c.part.id, { fast: undefined }));
    return [{ title, safe: false, edit: (plan) => inTurn(plan, 'part.set', title, steps) }];
  },
});

function inNoise(facts: Facts, lead: UsbLead): boolean {
  return [lead.run.from, lead.device].some((v) => facts.plan.zones[v.part.zone]?.kind === 'engine-bay');
}
