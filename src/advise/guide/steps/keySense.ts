import { nextFreePin } from '../../../analysis/freePins.ts';
import { keySenses } from '../../../rules/keySense.ts';
import { gpioPin } from '../../../trade/header.ts';
import { fact } from '../checks.ts';
import { Kit } from '../kit.ts';
import { keyEnd, rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const keySense: GuideStep = {
  id: 'key-sense',
  stage: 'draw',
  title: 'The computer sees the key, through light',
  todo: 'Let the ignition feed light a small lamp inside an optocoupler, and let its dark side tell a pin of the computer.',
  why: 'The computer must know when to stop. A pin stands 3.3 V and the vehicle has four times that, with spikes: through light no volt gets across.',
  byHand:
    'Shelf, Sets: “Key sensor” beside the computer. Wires: master switch to the sense resistor, sensor K to the ground, C to a free pin, E to a 0 V pin, the pull-up to pin 1.',
  rules: [
    'power-gone-too-soon',
    'hold-drops-at-boot',
    'broken-sense-reads-on',
    'sense-drifts-when-hot',
    'sense-falls-while-starting',
    'sense-ground-loaded',
    'sense-led-overdriven',
    'sense-led-unguarded',
    'sense-level-reversed',
    'sense-never-falls',
    'sense-resistor-too-hot',
    'sense-too-weak',
    'divider-too-narrow',
    'dips-taken-for-key-off',
    'input-left-floating',
    'isolation-thrown-away',
    'pull-up-to-wrong-rail',
    'five-volt-logic-on-pin',
    'wake-pin-cannot-wake',
  ],
  checks({ facts }) {
    const seen = keySenses(facts).find((s) => s.sensor !== null) ?? null;
    return [
      fact('A pin that watches the key hangs on an optocoupler.', seen !== null, seen?.computer, seen?.sensor?.opto),
      fact('A line that falls with the key lights it.', seen?.line === '15' || seen?.line === '75', seen?.sensor?.opto, seen?.feed ?? undefined),
    ];
  },
  offer({ plan, facts }) {
    const { computer, ground, sensor } = rolesOf(facts);
    const key = keyEnd(facts);
    if (!computer || !ground || key === null) return null;
    const gpio = Math.round(computer.s.num('senseGpio'));
    const pin = gpio > 0 ? gpioPin(gpio).pin : nextFreePin(plan, computer.part.id)?.pin;
    if (pin === undefined) return null;
    const kit = new Kit(plan, facts);
    const zone = computer.part.zone;
    const board = computer.part.id;
    const led = sensor && facts.isWired(`${sensor.part.id}.A`) ? sensor.part.id : null;
    const opto = sensor?.part.id ?? kit.piece('key-sensor', 'opto', zone, [250, 400]);
    if (led === null) {
      const series = kit.piece('key-sensor', 'series', zone, [40, 410]);
      const reverse = kit.piece('key-sensor', 'reverse', zone, [150, 460]);
      kit.join(key, `${series}.1`).join(`${series}.2`, `${opto}.A`, { lengthM: 0.05 });
      kit.join(`${reverse}.K`, `${opto}.A`, { lengthM: 0.05 }).join(`${opto}.K`, `${reverse}.A`, { lengthM: 0.05 });
    } else {
      const feeds = facts.ofKind('resistor').find((r) => ['1', '2'].some((t) => facts.netAt(r.part.id, t) === facts.netOf(`${led}.A`)));
      const near = feeds && (['1', '2'] as const).find((t) => facts.netAt(feeds.part.id, t) !== facts.netOf(`${led}.A`));
      if (feeds && near) kit.join(key, `${feeds.part.id}.${near}`);
    }
    kit.join(`${opto}.K`, `${ground.part.id}.31`);
    if (!facts.isWired(`${opto}.C`)) kit.join(`${kit.piece('key-sensor', 'pull', zone, [370, 330])}.2`, `${opto}.C`, { lengthM: 0.05 });
    const pull = Object.values(kit.plan.parts).find((p) => p.name === 'Pull-up' && p.zone === zone);
    if (pull && !facts.isWired(`${pull.id}.1`)) kit.join(`${pull.id}.1`, `${board}.1`, { lengthM: 0.2 });
    kit.join(`${opto}.C`, `${board}.${pin}`, { lengthM: 0.2 });
    if (!facts.isWired(`${opto}.E`)) kit.join(`${opto}.E`, `${board}.25`, { lengthM: 0.2 });
    return kit.offer('Add a key sensor');
  },
};
