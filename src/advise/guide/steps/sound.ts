import { soundPaths } from '../../../rules/soundPath.ts';
import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { freePort } from '../ports.ts';
import { dashZone, rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const sound: GuideStep = {
  id: 'sound',
  stage: 'draw',
  wish: 'sound',
  title: 'Sound to the radio, grounds kept apart',
  todo: 'Plug a sound adapter into the computer, and lead its sound through an isolator to the radio’s sound input.',
  why: 'Radio and computer have each their own ground. Joined by a sound lead, the alternator’s whine rides along; a transformer passes sound and no ground.',
  byHand: 'Shelf, Sound and picture: “USB sound adapter”, “Audio isolator”, “Radio sound input”. Join them in that order, the adapter to a USB port.',
  rules: ['audio-ground-ring', 'sound-too-loud', 'dimming-heard'],
  checks({ facts }) {
    const path = soundPaths(facts)[0];
    const adapter = path?.source ?? facts.ofKind('usb-sound')[0];
    return [
      fact('A sound adapter is plugged into the computer.', adapter !== undefined && facts.isWired(`${adapter.part.id}.usb`), adapter),
      fact('Its sound reaches a radio.', path !== undefined, path?.source, path?.input),
    ];
  },
  offer({ plan, facts }) {
    const { computer } = rolesOf(facts);
    const port = computer && freePort(facts, computer);
    if (!computer) return null;
    const kit = new Kit(plan, facts);
    const one = (kind: string): string | undefined => facts.ofKind(kind)[0]?.part.id;
    const adapter = one('usb-sound') ?? kit.part({ kind: 'usb-sound', zone: computer.part.zone }, [330, 620]);
    if (!facts.isWired(`${adapter}.usb`)) {
      if (!port) return null;
      kit.join(`${computer.part.id}.${port}`, `${adapter}.usb`);
    }
    const radio = one('radio-aux') ?? kit.part({ kind: 'radio-aux', zone: dashZone(plan) }, [60, 270]);
    if (!soundPaths(facts)[0]) {
      const known = one('audio-isolator');
      const isolator = known ?? kit.part({ kind: 'audio-isolator', zone: computer.part.zone }, [110, 620]);
      kit.join(`${adapter}.line`, `${isolator}.b`, { lengthM: 0.2 }).join(`${isolator}.a`, `${radio}.aux`);
    }
    return kit.offer('Add sound to the radio');
  },
};
