import type { Facts } from '../../analysis/factsTypes.ts';
import { wiresOn } from '../../plan/connect.ts';
import type { Band } from '../../plan/types.ts';
import { splitWire } from '../../plan/wireEdits.ts';
import { isLive } from '../../trade/lines.ts';
import { BULB_CHECK_A, KEPT_UP_V } from '../../trade/standing.ts';
import { beside } from '../build.ts';
import { amps, called, defineRule, part, verdicts, volts, wire } from '../defineRule.ts';
import { parkedKnown } from '../parkedShare.ts';
import { tapA, vehicleTaps } from '../standing.ts';
import type { Tap } from '../taps.ts';
import { grounded, type Hop, netAt, waysFrom } from '../trace.ts';
import type { Finding, Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('vehicle-line-kept-up', 'G7');
const BANDS: readonly Band[] = ['typical', 'high', 'low'];

export const vehicleLineKeptUp = defineRule({
  id: 'vehicle-line-kept-up',
  code: 'G7',
  level: 'fault',
  title: 'Our wiring keeps the vehicle awake',
  why: 'Modules of the vehicle listen on their lines and go to sleep when all is quiet. A line that we hold up through a resistor, or a lamp that takes more than its bulb, tells them something that is not so: they stay awake and drain the battery.',
  source: { text: 'Practice with sleeping networks and bulb checks', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => falling(facts).map((tap) => judge(facts, tap)),
  repair: (finding, facts) => (finding.data?.why === 'kept' ? diode(facts, finding) : []),
});

/** Taps on lines that are dead while the vehicle sleeps. */
function falling(facts: Facts): readonly Tap[] {
  return vehicleTaps(facts).filter((t) => t.source.kind === 'feed' && t.source.line !== undefined && !isLive(t.source.line, 'OFF_ASLEEP'));
}

function judge(facts: Facts, tap: Tap): Verdict {
  const subject = part(tap.view.part.id);
  if (!parkedKnown(facts)) return unknown(subject, 'the parked state could not be worked out');
  let [kept, band]: [number, Band] = [0, 'typical'];
  for (const b of BANDS) {
    const v = facts.volts(tap.key, 'OFF_ASLEEP', b) ?? 0;
    if (v > 1.001 * kept) [kept, band] = [v, b];
  }
  if (kept > KEPT_UP_V && isHeld(facts, tap)) {
    return found({
      level: 'fault',
      subject,
      related: wiresOn(facts.plan, tap.view.part.id, tap.source.terminal)
        .filter((w) => w.owner === 'build')
        .map((w) => wire(w.id)),
      what: `${called(tap.view)} should be dead while the vehicle sleeps, but our wiring holds it at ${volts(kept)}: what listens on this line stays awake.`,
      todo: 'Sense it with an optocoupler, or put a diode into our wire so that nothing flows back.',
      figures: [{ label: 'held at', value: kept, unit: 'V' }],
      state: 'OFF_ASLEEP',
      band,
      data: { why: 'kept' },
    });
  }
  const checked = tap.view.kind.settings.some((s) => s.key === 'bulbCheck') ? tap.view.s.str('bulbCheck') : 'no';
  const amp = checked === 'no' ? 0 : tapA(facts, tap, 'RUN_STOPPED', 'high');
  if (amp <= BULB_CHECK_A) return fine(subject);
  if (checked === 'unknown') return unknown(subject, `whether the vehicle checks the bulb on ${called(tap.view)} for failure`);
  return found({
    level: 'advice',
    subject,
    what: `The vehicle checks the bulb on ${called(tap.view)} by its current, and we take ${amps(amp)} beside it: above ${amps(BULB_CHECK_A)} it may miss a failed bulb or report a sound one.`,
    todo: 'Sense it with less current (a larger resistor and an optocoupler that is content with it), or use a line without such a check.',
    figures: [{ label: 'taken', value: amp, unit: 'A' }],
    state: 'RUN_STOPPED',
    band: 'high',
  });
}

/** Does a rail of ours reach the line other than through a diode that blocks? What leaks through one is nothing to a real line. */
function isHeld(facts: Facts, tap: Tap): boolean {
  const back = (h: Hop): boolean => PASSES.has(h.link.type) || (h.link.type === 'diode' && !h.forward);
  const ways = waysFrom(facts, facts.netOf(tap.key), back, (net) => grounded(facts, net));
  return [...facts.parts.values()].some((view) =>
    (view.facts.sources ?? []).some(
      (s) => STAYS.has(s.kind) && (s.kind !== 'feed' || isLive(s.line ?? '30', 'OFF_ASLEEP')) && reaches(netAt(facts, view, s.terminal)),
    ),
  );

  function reaches(net: number): boolean {
    return ways.has(net) && isUp(facts, net);
  }
}

const STAYS: ReadonlySet<string> = new Set(['battery', 'feed', 'converter', 'rail', 'usb', 'store']);
const PASSES: ReadonlySet<string> = new Set(['fuse', 'conductor', 'contact', 'resistor']);

function isUp(facts: Facts, net: number): boolean {
  const key = facts.netTerminals(net)[0];
  return key !== undefined && BANDS.some((b) => (facts.volts(key, 'OFF_ASLEEP', b) ?? 0) > KEPT_UP_V);
}

/** A diode into our only wire at the feed: current comes out of the vehicle and does not go back. */
function diode(facts: Facts, finding: Finding): Repair[] {
  const tap = falling(facts).find((t) => t.view.part.id === finding.subject.id);
  const ours = tap ? wiresOn(facts.plan, tap.view.part.id, tap.source.terminal).filter((w) => w.owner === 'build') : [];
  const only = ours[0];
  if (!tap || !only || ours.length > 1) return [];
  return [
    {
      title: `Put a diode into our wire at ${called(tap.view)}`,
      safe: false,
      edit: (plan) => {
        const row = plan.wires[only.id];
        if (!row) return null;
        const forward = row.from.part === tap.view.part.id;
        return splitWire(
          plan,
          row.id,
          { kind: 'diode', ...beside(tap.view.part, 150, 10), settings: { type: '1n4007' } },
          forward ? 'A' : 'K',
          forward ? 'K' : 'A',
        ).edit;
      },
    },
  ];
}
