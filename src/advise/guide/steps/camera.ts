import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { freePort } from '../ports.ts';
import { rolesOf, seenZone } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const camera: GuideStep = {
  id: 'camera',
  stage: 'draw',
  wish: 'camera',
  title: 'A camera',
  todo: 'Plug a camera into a USB port of the computer: one lead brings power and picture. A camera with a supply lead of its own goes behind a fuse of its own.',
  why: 'Within a few metres a USB camera needs nothing else. Farther back a lead of its own and a fuse at its start are the way.',
  byHand: 'Shelf, Compute: “USB camera”, one of the USB devices; type its current. Or Sound and picture: “Camera”, its + from behind a fuse.',
  rules: ['usb-cable-too-long', 'usb-device-starved', 'usb-devices-too-much', 'camera-starved-at-night', 'picture-comes-late'],
  checks({ facts }) {
    const wired = facts.ofKind('camera').find((c) => facts.isWired(`${c.part.id}.+`) && facts.isWired(`${c.part.id}.video`));
    const plugged = facts.ofKind('usb-device').find((d) => isCamera(d.name, d.s.str('what')) && facts.isWired(`${d.part.id}.usb`));
    return [fact('A camera is on the plan, fed and with its picture joined.', wired !== undefined || plugged !== undefined, wired ?? plugged)];
  },
  offer({ plan, facts }) {
    const { computer } = rolesOf(facts);
    const port = computer && freePort(facts, computer);
    if (!computer || !port) return null;
    const kit = new Kit(plan, facts);
    const known = facts.ofKind('usb-device').find((d) => isCamera(d.name, d.s.str('what')));
    const id = known?.part.id ?? kit.part({ kind: 'usb-device', zone: seenZone(plan), name: 'Camera', settings: { what: 'Camera' } }, [60, 330]);
    return kit.join(`${computer.part.id}.${port}`, `${id}.usb`).offer('Add a camera on USB');
  },
};

const isCamera = (name: string, what: string): boolean => /camera/i.test(`${name} ${what}`);
