import type { Facts } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import type { Edit, Plan, VehicleState } from '../../plan/types.ts';
import { isLive } from '../../trade/lines.ts';
import { end, farEnd, movedEnd, onlyWire, sameEnd } from '../build.ts';
import { called, defineRule, part, STATE_WORDS, verdicts } from '../defineRule.ts';
import { fusedLine, keyFeeds } from '../keyLine.ts';
import type { LedCircuit, Sensor } from '../sensing.ts';
import { sensors } from '../sensing.ts';
import { netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('sense-never-falls', 'D11');
/** An LED with this much current counts as lit, A. */
const LIT_A = 0.3e-3;
const OFF: readonly VehicleState[] = ['RETAIN_DOOR', 'OFF_AWAKE', 'OFF_ASLEEP'];
/** Lines that follow something else than the key. */
const OTHER_THINGS: Readonly<Record<string, string>> = { '58': 'the lamp switch', reverse: 'the reverse gear', '50': 'the starter' };

export const senseNeverFalls = defineRule({
  id: 'sense-never-falls',
  code: 'D11',
  level: 'fault',
  title: 'The sensed line does not follow the key',
  why: 'The computer stops itself when the line that it watches goes dead. A line that stays live, or goes dead for other reasons, tells it nothing.',
  source: { text: 'Lines of DIN 72552 and when they are live: workshop tables (read) and practice', grade: 'standard' },
  needs: 'readings',
  check: (facts) => watched(facts).map((sensor) => judge(facts, sensor, sensor.led!)),
  repair: (finding, facts) => {
    const sensor = watched(facts).find((s) => s.opto.part.id === finding.subject.id);
    const led = sensor?.led;
    if (!sensor || !led) return [];
    // The first resistor seen from the line, else the LED: what is joined there moves to another line.
    const first = led.resistors[0] ?? sensor.opto;
    const terminal = first === sensor.opto ? 'A' : ['1', '2'].find((t) => led.above.has(netAt(facts, first, t)) && sourceSide(facts, led, first, t));
    const wire = terminal === undefined ? null : onlyWire(facts.plan, first.part.id, terminal);
    if (!wire) return [];
    return keyFeeds(facts)
      .filter((feed) => feed !== led.supply.view)
      .flatMap((feed) => {
        const to = fusedLine(facts, feed);
        return to
          ? [
              {
                title: `Sense ${called(feed)} instead`,
                safe: false,
                edit: (plan: Plan): Edit | null => {
                  const row = plan.wires[wire.id];
                  if (!row || sameEnd(farEnd(row, first.part.id), to)) return null;
                  const draft = new Draft(plan);
                  draft.setWire(movedEnd(row, farEnd(row, first.part.id), end(to.part, to.terminal)));
                  return draft.edit('repair.apply', 'Sense another line');
                },
              },
            ]
          : [];
      })
      .slice(0, 1);
  },
});

/** Sensors on the pin by which a computer watches the key. */
function watched(facts: Facts): Sensor[] {
  return sensors(facts).filter(({ led, output }) => led?.supply.vehicle && output && Math.round(output.use.computer.s.num('senseGpio')) === output.use.gpio);
}

function sourceSide(facts: Facts, led: LedCircuit, view: Sensor['opto'], terminal: string): boolean {
  const hop = led.hops.find((h) => h.views.includes(view));
  return hop !== undefined && hop.to === netAt(facts, view, terminal);
}

function judge(facts: Facts, sensor: Sensor, led: LedCircuit): Verdict {
  const subject = part(sensor.opto.part.id);
  const feed = led.supply.view;
  const line = led.supply.source.line ?? '30';
  const lit = (state: VehicleState): boolean => {
    const amp = facts.elementA(sensor.opto.part.id, 'opto', state, 'typical', 'led');
    return amp === null ? isLive(line, state) : amp > LIT_A;
  };
  const timer = led.hops.find((h) => h.link.type === 'contact' && h.views[0]!.kind.kind === 'delay-off-relay')?.views[0];
  const say = (level: 'fault' | 'advice', what: string, state: VehicleState): Verdict =>
    found({
      level,
      subject,
      related: [part(feed.part.id), part(sensor.output!.use.computer.part.id)],
      what,
      todo:
        level === 'fault'
          ? 'Sense a line that falls with the key: ignition (15) first, else accessory (75).'
          : 'Sense ignition (15) if the computer should stop as soon as the key is off.',
      state,
      band: 'typical',
    });
  const other = OTHER_THINGS[line];
  if (other) return say('fault', `${called(sensor.opto)} watches ${called(feed)}, which follows ${other} and not the key.`, 'RUN_CHARGING');
  if (timer)
    return say('fault', `${called(sensor.opto)} watches the output of ${called(timer)}, which falls only when the computer’s own supply falls.`, 'RETAIN');
  if (!lit('RUN_CHARGING')) return fine(subject);
  if (OFF.every(lit)) {
    return say(
      'fault',
      `${called(sensor.opto)} watches ${called(feed)}, which is live with the key on and with the key off: the computer never hears of key-off.`,
      'OFF_ASLEEP',
    );
  }
  const late = (['RETAIN', ...OFF] as const).find(lit);
  if (!late) return fine(subject);
  return say(
    'advice',
    `${called(sensor.opto)} watches ${called(feed)}, which is still live ${STATE_WORDS[late]}: the computer hears of key-off only when that ends, minutes later or when a door opens.`,
    late,
  );
}
