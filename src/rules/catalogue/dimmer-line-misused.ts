import type { Facts, PartView, TerminalKey } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import { DIMMER } from '../../trade/keyEvents.ts';
import { called, defineRule, part, plain, verdicts, volts } from '../defineRule.ts';
import { grounded, isResistor, netAt, waysFrom } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('dimmer-line-misused', 'J10');
/** A coil or an electronic trigger only asks whether lamps are on. */
const ASKS: ReadonlySet<string> = new Set(['relay', 'delay-off-relay']);

export const dimmerLineMisused = defineRule({
  id: 'dimmer-line-misused',
  code: 'J10',
  level: 'fault',
  title: 'Instrument lamp line used as a supply, or raw as a brightness signal',
  why: 'The line of the instrument lamps is often chopped a hundred times a second to dim them, and some vehicles chop its ground side. As a supply it feeds bursts; at a brightness input it is 12 V where 3 V belong.',
  source: { text: 'Dimming by pulses of 100 to 200 Hz (from memory); filter of 10 kΩ and 10 µF from practice', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => facts.ofKind('feed-58').flatMap((feed) => [...supplied(facts, feed), ...dimmed(facts, feed)]),
});

/** Parts that the line is to supply. */
function supplied(facts: Facts, feed: PartView): Verdict[] {
  const out: TerminalKey = `${feed.part.id}.out`;
  if (!facts.isWired(out)) return [];
  const reached = facts.reach(out, ['fuse', 'contact', 'conductor', 'diode'], (view) => view.kind.kind === 'optocoupler');
  const fed = facts.loads.filter(({ view, load }) => !ASKS.has(view.kind.kind) && reached.has(`${view.part.id}.${load.plus}`));
  const views = [...new Set(fed.map((f) => f.view))];
  if (views.length === 0) return [fine(part(feed.part.id))];
  return [
    found({
      level: 'fault',
      subject: part(feed.part.id),
      related: views.map((v) => part(v.part.id)),
      what: `${called(feed)} is to supply ${listed(views.map(called), 3)}: it is live with the lamps alone, and dimmed by pulses.`,
      todo: 'Take the supply from 30 or 15, and let this line only tell day from night over an optocoupler.',
    }),
  ];
}

/** Brightness inputs that see the line. */
function dimmed(facts: Facts, feed: PartView): Verdict[] {
  const through = facts.reach(`${feed.part.id}.out`, ['fuse', 'contact', 'conductor', 'diode', 'resistor'], (view) => view.kind.kind === 'optocoupler');
  return facts.ofKind('touch-display').flatMap((view) => {
    const key: TerminalKey = `${view.part.id}.bl`;
    if (!facts.isWired(key) || !through.has(key)) return [];
    const subject = part(view.part.id);
    const volt = Math.max(0, ...facts.solved.map((r) => facts.across(key, `${view.part.id}.0v`, r.state, r.band) ?? 0));
    const tauS = filterS(facts, view, feed);
    if (volt <= DIMMER.inputMaxV && tauS >= DIMMER.leastTauS) return [fine(subject)];
    const high = volt > DIMMER.inputMaxV;
    return [
      found({
        level: 'fault',
        subject,
        related: [part(feed.part.id)],
        what: high
          ? `The brightness input of ${called(view)} sees ${volts(volt)} of ${called(feed)}; it is made for ${volts(DIMMER.inputMaxV)}.`
          : `The brightness input of ${called(view)} sees the pulses of ${called(feed)} ${tauS > 0 ? `over a filter of ${plain(tauS * 1e3)} ms` : 'unfiltered'}: it flickers; ${plain(DIMMER.leastTauS * 1e3)} ms are wanted.`,
        todo: 'Bring it over an optocoupler with a filter of 10 kΩ and 10 µF behind.',
        figures: [
          { label: 'at the input', value: volt, unit: 'V' },
          { label: 'filter', value: tauS, unit: 's' },
        ],
      }),
    ];
  });
}

/** Time constant of resistor and capacitor ahead of the input, s; 0 = no filter. */
function filterS(facts: Facts, view: PartView, feed: PartView): number {
  const net = netAt(facts, view, 'bl');
  const farad = facts
    .ofKind('capacitor')
    .filter((c) => [['+', '-'] as const, ['-', '+'] as const].some(([a, b]) => netAt(facts, c, a) === net && grounded(facts, netAt(facts, c, b))))
    .reduce((sum, c) => sum + c.s.num('farad'), 0);
  const way = waysFrom(
    facts,
    net,
    (h) => isResistor(h) || h.link.type === 'fuse' || h.link.type === 'conductor' || h.link.type === 'diode',
    (n) => grounded(facts, n),
  ).get(netAt(facts, feed, 'out'));
  return farad * (way?.ohm ?? 0);
}
