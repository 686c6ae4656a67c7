import { setVehicle } from '../../../plan/edits.ts';
import { fact } from '../checks.ts';
import { rolesOf } from '../roles.ts';
import type { GuideStep } from '../types.ts';

export const start: GuideStep = {
  id: 'start',
  stage: 'draw',
  title: 'Through the turn of the starter',
  todo: 'While the starter turns, the supply sinks for seconds. Say what your vehicle does, and whether the computer may start again after it.',
  why: 'No converter makes 5 V from less. What is not known is planned at its worst: an engine that restarts at every light, and a computer that must run on.',
  byHand:
    'Answers, “Vehicle”: the dip to be ready for, and whether the engine restarts by itself. If the computer must run on through deep dips, it wants a battery of its own.',
  rules: ['dip-not-bridged', 'converter-starves', 'starting-reboots-computer', 'five-volt-window', 'coil-will-not-pull-in'],
  checks({ facts }) {
    const { computer } = rolesOf(facts);
    return [
      fact(
        'The computer has power, so that a start can be worked out.',
        computer !== undefined && facts.deviceOn(computer.part.id, 'powered', 'RUN_CHARGING', 'typical'),
        computer,
      ),
    ];
  },
  offer({ plan, results }) {
    const { stopStart, dipLevel } = plan.vehicle;
    const spoken = new Set(results.report.findings.filter((f) => f.level !== 'advice').map((f) => f.rule));
    if (!start.rules.some((rule) => spoken.has(rule))) return null;
    if (stopStart) return { title: 'Answer: the engine does not restart by itself', edit: setVehicle(plan, { stopStart: false }), ask: true };
    // ISO 16750-2: level I is the lightest of the dips; the build may fall and rise again, unharmed.
    if (dipLevel !== 'I') return { title: 'Answer: the computer may start again after a start', edit: setVehicle(plan, { dipLevel: 'I' }), ask: true };
    return null;
  },
};
