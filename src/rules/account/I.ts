import type { Facts } from '../../analysis/factsTypes.ts';
import type { Account } from './types.ts';

/** Is any lead of the vehicle joined on to? */
function tapsVehicle(facts: Facts): boolean {
  return [...facts.parts.values()].some((v) => v.facts.tap && facts.isWired(`${v.part.id}.${v.facts.tap.terminal}`));
}

/** Group I of the catalogue, "Links and cables": entries without a rule of their own. */
export const GROUP_I: readonly Account[] = [
  {
    code: 'I7',
    how: 'checklist',
    when: 'before',
    line: 'Join nothing to a data wire: a thin twisted pair with about 2.5 V on each core, or one wire whose volts flicker, is neither a feed nor a signal.',
    reason: 'A plan draws leads that somebody has named; that a lead is really a data wire shows only on the meter. 2.3 to 2.7 V: a bus standard, from memory.',
    applies: tapsVehicle,
  },
  {
    code: 'I8',
    how: 'checklist',
    when: 'closing',
    line: 'Give each antenna of a receiver or modem its own place: open sky through plain glass or plastic, 0.3 m from the next one, its lead in bends ten times as wide as it is thick.',
    reason:
      'Where an antenna sits in a zone, what roof or coated glass is above it and how its lead bends stand in no drawing. Distances: common practice, no source.',
    applies: (facts) => facts.ofKind('usb-device', 'video-receiver', 'video-sender').length > 0,
  },
  {
    code: 'I11',
    how: 'checklist',
    when: 'closing',
    line: 'Clamp the lead within 50 mm of every plug that only friction holds, power and storage first; in machines, lorries and on rough ground take plugs that lock.',
    reason: 'USB, barrel and picture plugs are drawn by their link, not by their latch, and no drawing knows how much the place shakes.',
    applies: (facts) => facts.ofKind('computer', 'usb-cable', 'usb-device', 'usb-hub', 'touch-display').length > 0,
  },
];
