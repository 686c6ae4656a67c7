import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { wiresOn } from '../../plan/connect.ts';
import { listed } from '../../plan/listed.ts';
import type { VehicleState } from '../../plan/types.ts';
import { end, movedEnd } from '../build.ts';
import { called, defineRule, part, STATE_WORDS, verdicts, volts, wire } from '../defineRule.ts';
import { railOver } from '../rails.ts';
import { change } from '../taps.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('rest-contact-live', 'J7');
const PARKED: readonly VehicleState[] = ['OFF_ASLEEP', 'OFF_AWAKE'];
/** What passes a signal on and takes next to nothing: being live is its job. */
const SIGNAL: ReadonlySet<string> = new Set(['resistor', 'led', 'optocoupler', 'diode', 'capacitor']);
const FORWARD = ['fuse', 'contact', 'conductor', 'diode'];
/** What only passes on. */
const PASSES: ReadonlySet<string> = new Set(['splice', 'blade-fuse']);

export const restContactLive = defineRule({
  id: 'rest-contact-live',
  code: 'J7',
  level: 'hazard',
  title: 'Changeover contact leaves the wrong thing live',
  why: 'At rest a changeover relay joins 30 to 87a. What hangs there is live when nobody thinks so: with the key off, with the relay pulled half out, at an open plug that a coin can bridge.',
  source: { text: 'Terminal numbers of DIN 72552 (read); common practice', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => facts.ofKind('relay').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const id = finding.subject.id;
    const wires = wiresOn(facts.plan, id, '87a');
    if (wires.length === 0 || wiresOn(facts.plan, id, '87').length > 0) return [];
    const title = 'Move its wire from 87a to 87';
    return [
      {
        title,
        safe: false,
        edit: (plan) =>
          change(plan, 'wire.move', title, (draft) => {
            for (const w of wires) if (plan.wires[w.id]) draft.setWire(movedEnd(plan.wires[w.id]!, end(id, '87a'), end(id, '87'), true));
          }),
      },
    ];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  const key = `${view.part.id}.87a`;
  if (!facts.isWired(key) || !facts.isWired(`${view.part.id}.30`)) return [];
  const subject = part(view.part.id);
  // Fed at 87a, as where it picks one of two supplies, it passes the current on and leaves nothing live there.
  if (railOver(facts, FORWARD, (v) => v === view).has(key)) return [fine(subject)];
  const live = PARKED.flatMap((state) => {
    const volt = facts.volts(key, state, 'high');
    return volt !== null && volt > facts.plan.vehicle.systemV / 2 && !facts.deviceOn(view.part.id, 'coil', state, 'high') ? [{ state, volt }] : [];
  })[0];
  const behind = live ? hung(facts, view, key) : [];
  if (!live || (behind.length > 0 && behind.every((v) => SIGNAL.has(v.kind.kind)))) return [fine(subject)];
  const named = behind.filter((v) => !SIGNAL.has(v.kind.kind));
  return [
    found({
      level: 'hazard',
      subject,
      related: [...wiresOn(facts.plan, view.part.id, '87a').map((w) => wire(w.id)), ...named.map((v) => part(v.part.id))],
      what: `With ${called(view)} at rest 87a is live at ${volts(live.volt)} while ${STATE_WORDS[live.state]}${named.length > 0 ? `, and with it ${listed(named.map(called), 3)}` : ', and with it the bare end of its wire'}.`,
      todo: 'Use 87, which is live only while the relay is energised, or a relay without 87a.',
      figures: [{ label: 'at 87a', value: live.volt, unit: 'V' }],
      state: live.state,
      band: 'high',
    }),
  ];
}

/** What hangs on the rest contact, over wires, joints and fuses. */
function hung(facts: Facts, view: PartView, key: string): PartView[] {
  const found = new Set<PartView>();
  for (const at of facts.reach(key, ['fuse', 'conductor']).keys()) {
    const other = facts.at(at)?.view;
    if (other && other !== view && !PASSES.has(other.kind.kind)) found.add(other);
  }
  return [...found];
}
