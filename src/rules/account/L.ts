import type { Account } from './types.ts';

/** Group L of the catalogue, "People, law, habit": entries without a rule of their own. */
export const GROUP_L: readonly Account[] = [
  {
    code: 'L2',
    how: 'checklist',
    when: 'wiring',
    line: 'Tie nothing to a restraint loom, lay nothing across it, and stay 100 mm away: yellow covers, in some makes orange.',
    reason: 'The shelf holds no restraint wiring, so nothing can be joined to it in a plan; where its looms lie is seen at the vehicle.',
  },
  {
    code: 'L3',
    how: 'checklist',
    when: 'before',
    line: 'Trace every orange cable before choosing a way, keep 0.2 m from all of them, and ask the vehicle maker before tapping what its 12 V converter feeds.',
    reason: 'Where high-voltage cables lie stands in no drawing. 0.2 m: common practice, no source.',
    applies: (facts) => facts.plan.vehicle.electrified,
  },
  {
    code: 'L5',
    how: 'checklist',
    when: 'handing over',
    line: 'See that the screen hides no lamp, gauge or switch, does not shine into the eyes at night, and shows the driver nothing that distracts.',
    reason: 'Where a screen stands before the driver’s eyes, and what its program shows while driving, are no part of a wiring plan; local rules decide.',
    applies: (facts) => facts.ofKind('touch-display').length > 0,
  },
  {
    code: 'L6',
    how: 'checklist',
    when: 'closing',
    line: 'Fix boxes with metal screws or straps that hold twenty times their weight, 160 N for 0.8 kg, so that nothing flies loose in a crash; leave air around what gets warm.',
    reason: 'Weights and brackets are not drawn. Twenty times: common practice, no source; where children ride, fifty.',
  },
  {
    code: 'L7',
    how: 'checklist',
    when: 'closing',
    line: 'Keep every wire out of reach of steering column, pedals, seat rails, handbrake, hinges, heater box and sharp edges, in any seat position; in the foot space tie it every 150 mm.',
    reason: 'A plan knows zones and lengths, not where a wire passes in the foot space.',
  },
  {
    code: 'L8',
    how: 'left out',
    reason:
      'A plan has no steps of its own that could lack the isolating: the sheet writes them, and its cautions begin with key out, wait, battery negative off.',
  },
  {
    code: 'L10',
    how: 'checklist',
    when: 'wiring',
    line: 'Put its number on every wire at both ends, and its rating and what it feeds beside every fuse.',
    reason: 'Every wire gets its number by itself, and the sheet prints the tags; whether they are on the wires is seen at the vehicle.',
  },
  {
    code: 'L11',
    how: 'checklist',
    when: 'before',
    line: 'Find out who must approve this: a bus, school, hire, ambulance or dangerous-goods vehicle, or a tractor on the road, may need a licensed person and a paper.',
    reason: 'What kind of approval a vehicle runs under is no part of a wiring plan, and the rules differ from country to country.',
  },
  {
    code: 'L12',
    how: 'checklist',
    when: 'handing over',
    line: 'Compare each reading with its computed figure: off by more than 5 % and 0.1 V, or a drop half as large again, look for a bad joint, then wrong size, wrong length, wrong terminal.',
    reason: 'Readings are written on the sheet beside the computed figures, not into the plan.',
    applies: (facts) => Object.values(facts.plan.wires).some((w) => w.owner === 'build'),
  },
  {
    code: 'L13',
    how: 'checklist',
    when: 'wiring',
    line: 'Make every crimp with the die that belongs to the terminal; no solder joint where a wire bends or shakes, and a ferrule, no tin, under a screw.',
    reason: 'How an end is made is a matter of the hand, not of the drawing; joints on vehicle leads are asked for and judged with the tap.',
  },
  {
    code: 'L14',
    how: 'checklist',
    when: 'handing over',
    line: 'Photograph what was moved or taken out of the vehicle and keep it with the list of how to undo it.',
    reason: 'The sheet lists where the build joins the vehicle; brackets, speakers and trims that gave way are not drawn.',
  },
  {
    code: 'L15',
    how: 'checklist',
    when: 'handing over',
    line: 'Tell the driver: a camera picture is an aid, look over the shoulder as before.',
    reason: 'What people do with a picture is no part of a wiring plan.',
    applies: (facts) => facts.ofKind('camera').length > 0,
  },
  {
    code: 'L16',
    how: 'left out',
    reason:
      'Nothing to judge in a plan: the cautions and the owner’s card of every sheet say to pull the fuse of the build before a jump start, welding or a battery change.',
  },
];
