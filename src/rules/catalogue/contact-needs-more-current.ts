import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { contactMinA, RELAY_MIN_A } from '../../parts/contacts.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { RAIL3 } from '../../trade/logic.ts';
import { amps, called, defineRule, part, verdicts } from '../defineRule.ts';
import { insidePull, type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('contact-needs-more-current', 'J5');

/** Contacts that a signal may pass, with their terminals. */
const CONTACTS: Readonly<Record<string, readonly string[]>> = {
  'push-button': ['1', '2'],
  'master-switch': ['1', '2'],
  relay: ['30', '87', '87a'],
};

export const contactNeedsMoreCurrent = defineRule({
  id: 'contact-needs-more-current',
  code: 'J5',
  level: 'fault',
  title: 'Heavy contact for a whisper of current',
  why: 'Silver tarnishes. A strong current burns the film away at each switching; the millionths of an amp of a pin do not. After a winter the switch is there and does nothing.',
  source: {
    text: 'Gold 10 µA, tactile silver 1 mA, silver 10 mA (from memory; one maker asks 1 mA of gold as well); power relays 0.1 A at 5 V (sheets, read)',
    grade: 'data sheet',
  },
  disputed:
    'Some want 10 mA through every contact, to keep it clean by its own current. Others take gold and let microamps do. Here the material decides, and the part’s own figure where it is typed.',
  needs: 'readings',
  check: (facts) => facts.ofKind(...Object.keys(CONTACTS)).flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view || view.kind.kind === 'relay') return [];
    const gold = view.kind.kind === 'push-button' ? 'Take one with gold contacts' : 'Take a low-level switch with gold contacts';
    return [{ title: gold, safe: true, edit: (plan) => setSettings(plan, view.part.id, { contact: 'gold', minA: undefined }) }];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  const use = pinAt(facts, view);
  const amp = use ? pinA(facts, use) : throughA(facts, view);
  if (amp === null || amp <= 0) return [];
  const subject = part(view.part.id);
  const least = view.kind.kind === 'relay' ? RELAY_MIN_A : contactMinA(view.s);
  if (amp >= least) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      related: use ? [part(use.computer.part.id)] : [],
      what: `The contact of ${called(view)} switches ${amps(amp)}${use ? ` at ${pinName(use)}` : ''} and wants ${amps(least)} or more to keep itself clean.`,
      todo: view.kind.kind === 'relay' ? 'Bring the signal over an optocoupler.' : 'Take a contact with gold, or give it more current: a smaller pull-up.',
      figures: [
        { label: 'switches', value: amp, unit: 'A' },
        { label: 'wants', value: least, unit: 'A' },
      ],
    }),
  ];
}

function pinAt(facts: Facts, view: PartView): PinUse | null {
  const nets = CONTACTS[view.kind.kind]!.filter((t) => facts.isWired(`${view.part.id}.${t}`)).map((t) => netAt(facts, view, t));
  return pinUses(facts).find((u) => u.mode !== 'out' && nets.some((n) => u.nets.has(n))) ?? null;
}

/** What flows when the contact pulls the pin to the other side, at its least; null where nothing says. */
function pinA(facts: Facts, use: PinUse): number | null {
  const drawn = parallelOhm(
    pullsOn(facts, use.nets).map((p) => p.view),
    'most',
  );
  const inside = Math.min(insidePull(use, 'up').most, insidePull(use, 'down').most);
  const ohm = 1 / (1 / drawn + 1 / inside);
  return Number.isFinite(ohm) ? RAIL3.minV / ohm : null;
}

/** The most that it carries in any key position in the middle of the band, A; a relay's own load is another rule's. */
function throughA(facts: Facts, view: PartView): number | null {
  if (view.kind.kind !== 'master-switch') return null;
  const amps = facts.solved.filter((r) => r.band === 'typical').map((r) => Math.abs(facts.elementA(view.part.id, 'sw', r.state, r.band) ?? 0));
  const most = Math.max(0, ...amps);
  // Leakage of what is dead is no current.
  return most < 1e-6 ? null : most;
}
