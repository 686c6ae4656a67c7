import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { listed } from '../../plan/listed.ts';
import { STARTER } from '../../trade/keyEvents.ts';
import { isLive } from '../../trade/lines.ts';
import { bridged, crankDip, cutBefore } from '../crankDip.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { holdInstead } from '../holdEdits.ts';
import { type Held, heldComputers } from '../holders.ts';
import { fedNets } from '../outputs.ts';
import { type Converter, converters } from '../rails.ts';
import { carriedBy } from '../storeHold.ts';
import { stopNeedS } from '../supplyHold.ts';
import { netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('starting-reboots-computer', 'F3');

export const startingRebootsComputer = defineRule({
  id: 'starting-reboots-computer',
  code: 'F3',
  level: 'fault',
  title: 'Starting the engine reboots the computer',
  why: 'While the starter turns, accessory lines are dead and all others sag. A computer that was up loses its power in the middle of its work, every time somebody starts the engine.',
  source: { text: 'Workshop continuity chart of an ignition switch (read); ISO 16750-2 starting profiles', grade: 'data sheet' },
  needs: 'readings',
  disputed:
    'Many are content when all works down to 9 V, which a warm engine with a good battery keeps. Cold mornings and engines that stop at halts pull a battery to 6 V and less. Here the vehicle’s dip level decides: level I for an ordinary start, level II and beyond where a plan says so.',
  limits: [
    { key: 'starterS', title: 'Longest time that the starter turns', unit: 's', value: STARTER.mostS, least: 0.5, most: 60, basis: 'fitters’ practice' },
  ],
  explains: ['five-volt-window'],
  check: (facts) => heldComputers(facts).flatMap((h) => judge(facts, h)),
  repair: (finding, facts) => {
    const h = heldComputers(facts).find((x) => x.computer.part.id === finding.subject.id);
    if (!h || finding.data?.why !== 'line' || h.ending.feeds.size !== 1) return [];
    const repair = holdInstead(facts, [...h.ending.feeds][0]!, stopNeedS(h.computer));
    return repair ? [repair] : [];
  },
});

function judge(facts: Facts, h: Held): Verdict[] {
  const { computer, ending } = h;
  const subject = part(computer.part.id);
  const powered = (state: 'RUN_STOPPED' | 'START', band: 'typical' | 'low'): boolean => facts.deviceOn(computer.part.id, 'powered', state, band);
  if (!powered('RUN_STOPPED', 'typical')) return [];
  const longestS = facts.threshold('starterS', STARTER.mostS);
  const carriedS = Math.max(0, ...carriedBy(facts).map((c) => (c.computer === computer ? c.seconds : 0)));
  if (!powered('START', 'typical')) {
    if (carriedS >= longestS) return [fine(subject)];
    return [deadLine(computer, [...ending.feeds], [...h.contacts], longestS)];
  }
  const c = converterOf(facts, computer);
  const dip = c && crankDip(facts, c);
  const carried = dip?.carried === true;
  const up = powered('START', 'low') || cutBefore(facts);
  if (carried || (up && (dip === null || bridged(dip)))) return [fine(subject)];
  const fell = up ? null : contactThatFell(facts, h);
  const by = fell ?? c?.view ?? null;
  const { dipLevel } = facts.plan.vehicle;
  return [
    found({
      level: 'fault',
      subject,
      related: by ? [part(by.part.id)] : [],
      what: `At dip level ${dipLevel} ${called(computer)} loses its power while the starter turns${by ? `: ${called(by)} ${fell ? 'falls open' : 'gets too little'}` : ''}, and it starts anew each time.`,
      todo: 'Let its supply hold through the start, or accept it and choose the milder dip level that your vehicle has been measured at.',
      state: 'START',
      band: 'low',
      data: { why: 'dip' },
    }),
  ];
}

function deadLine(computer: PartView, feeds: readonly PartView[], contacts: readonly PartView[], longestS: number): Verdict {
  const dead = feeds.filter((f) => f.facts.tap && !isLive(f.facts.tap.line, 'START'));
  const relay = contacts.find((v) => v.kind.kind === 'relay' || v.kind.kind === 'hold-latch' || v.kind.kind === 'delay-off-relay');
  const all = dead.length > 0 && dead.length === feeds.length;
  const cause = all ? dead : relay ? [relay] : [];
  return found({
    level: 'fault',
    subject: part(computer.part.id),
    related: cause.map((v) => part(v.part.id)),
    what: `${cause.length > 0 ? listed(cause.map(called)) : 'Its supply'} ${all ? 'is dead' : 'is open'} while the starter turns, for up to ${plain(longestS)} s: ${called(computer)} loses its power at each start of the engine.`,
    todo: 'Feed it from permanent 30 over a hold relay that ignition (15) triggers.',
    figures: [{ label: 'longest start', value: longestS, unit: 's' }],
    state: 'START',
    band: 'typical',
    data: { why: all ? 'line' : 'contact' },
  });
}

/** The converter that gives a computer its 5 V; null when it has another supply. */
function converterOf(facts: Facts, computer: PartView): Converter | null {
  const five = netAt(facts, computer, supplyPair(computer.s).plus);
  return converters(facts).find((c) => fedNets(facts, c).has(five)) ?? null;
}

/** A relay on the way that holds in the middle band and falls open in the low one. */
function contactThatFell(facts: Facts, { contacts }: Held): PartView | null {
  const device: Readonly<Record<string, string>> = { relay: 'coil', 'delay-off-relay': 'coil', 'hold-latch': 'latch' };
  for (const view of contacts) {
    const id = device[view.kind.kind];
    if (id && facts.deviceOn(view.part.id, id, 'START', 'typical') && !facts.deviceOn(view.part.id, id, 'START', 'low')) return view;
  }
  return null;
}
