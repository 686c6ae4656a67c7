import type { Context } from './context.ts';

/** What no drawing can show: to be looked at by hand before the panel closes. Common practice, no source. */
export function checklistLines(context: Context): string[] {
  const kinds = new Set(context.ours.map((v) => v.kind.kind));
  const zones = new Set([...context.views.values()].map((v) => context.plan.zones[v.part.zone]?.kind));
  const has = (...names: string[]): boolean => names.some((n) => kinds.has(n));
  const lines: (string | false)[] = [
    'A rubber grommet wherever a wire passes sheet metal; the hole deburred and painted.',
    'Every wire held at least every 300 mm, 60 mm before each part; no wire holds up a part.',
    'No wire within reach of steering column, pedals, seat rails, handbrake, hinges, heater box or sharp edges, in any seat position.',
    'Nothing mounted or routed where an airbag or a belt tensioner unfolds, and nothing that a head or a knee can meet.',
    'Only black or grey tube and tape: yellow and orange are kept for restraint and high-voltage wiring.',
    'Every wire carries its number at both ends; every fuse its rating and what it feeds, beside the holder.',
    'Every crimp made with the die that belongs to the terminal; no solder joint where a wire bends or shakes.',
    'A drip loop before each box, terminals facing down, and nothing below a window channel or a heater hose joint.',
    'Ground rings on bare metal with a toothed washer, bolt tightened, then greased or painted; no more than three rings on a bolt.',
    'Boxes fixed with metal screws or straps, so that nothing flies loose in a crash; room for air around what gets warm.',
    has('blade-fuse') && 'A spare fuse of each rating lies in the vehicle.',
    has('surge-clamp', 'capacitor', 'diode', 'reverse-guard') &&
      'Polarity of every clamp, diode and capacitor seen, not assumed: the stripe is where the drawing has it.',
    has('computer') && 'Pin 1 of the header found and marked; nothing on a pin that the list says is free.',
    has('touch-display') && 'The screen hides no lamp, gauge or switch, does not shine into the eyes at night, and shows the driver nothing that distracts.',
    has('camera') && 'A camera picture is an aid: look over the shoulder as before.',
    has('master-switch', 'push-button') && 'Switches reachable without leaning, labelled, and not to be hit by a knee.',
    zones.has('engine-bay') && 'In the engine bay: conduit, 125 °C insulation near the engine, no box on the engine itself, slack for engine movement.',
    zones.has('roof') && 'Behind headlining and pillar trim: cable clear of curtain airbags, clips put back as they were.',
    zones.has('outside') && 'Outside: sealed connectors, glands facing down, a drain hole at the lowest point of each box.',
  ];
  return lines.filter((line): line is string => line !== false);
}

/** What this sheet never looks at, whatever the plan. */
export const NOT_LOOKED_AT: readonly string[] = [
  'Cable ways as built, chafing, strain, corrosion, the quality of joints: see the checklist.',
  'The vehicle’s own circuits beyond the taps, its bus and control units, and whether they mind a tap.',
  'Radio interference, in either direction, beyond the placing of parts.',
  'Type approval, road and workplace rules, insurance, and what the vehicle maker allows.',
  'The software that runs on the computer.',
  'Whatever was typed in wrongly: figures are worked out from the plan as entered.',
];
