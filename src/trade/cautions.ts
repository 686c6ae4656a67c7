/**
 * The usual cautions, in our own words. Basis: common practice of the trade. Sign numbers are those of ISO 7010 (from memory)
 * and are used here only, never for findings.
 */
export interface Caution {
  readonly id: string;
  readonly text: string;
  /** ISO 7010 registration number of the sign that goes with it. */
  readonly sign?: string;
}

export const CAUTIONS: readonly Caution[] = [
  { id: 'maker-first', text: 'Follow the vehicle maker’s instructions; where they differ from this plan, they come first.', sign: 'M002' },
  {
    id: 'local-rules',
    text: 'Local road, approval and workplace rules decide what may be fitted and what a driver may be shown. Check them before you start.',
  },
  {
    id: 'isolate',
    text: 'Key out, wait as long as the maker says, then take off the battery’s negative lead first and put it back last. Note radio codes and window settings before.',
    sign: 'M021',
  },
  {
    id: 'restraint',
    text: 'Airbag and belt wiring is never measured, tapped, unplugged or moved. Yellow or orange covers, a twisted pair or a shorting bar in the plug: leave it alone.',
    sign: 'P010',
  },
  {
    id: 'high-voltage',
    text: 'Orange cables in an electrified vehicle carry a voltage that kills. Keep away from them and from everything they lead to.',
    sign: 'W012',
  },
  { id: 'fuse-at-tap', text: 'Fit a fuse within a hand’s width of every tap. Up to there nothing switches off a short.', sign: 'W021' },
  {
    id: 'battery',
    text: 'Batteries give off gas that can explode and hold acid: no sparks or flames, eye protection on, rings and watches off.',
    sign: 'W026',
  },
  {
    id: 'stores',
    text: 'Supercapacitors and large capacitors stay charged after the battery is off. Bleed them through a resistor before you touch them; never short them.',
  },
  { id: 'part-direction', text: 'Capacitors, clamps and diodes have a direction. The wrong way round they burst or short the supply.' },
  { id: 'engine', text: 'Work with the engine off except for the tests that say otherwise, and never run it in a closed room.', sign: 'W016' },
  {
    id: 'distraction',
    text: 'Nothing on the screen may distract the driver: no moving pictures while driving, and no control that needs a look away from the road.',
  },
  {
    id: 'keep-clear',
    text: 'Keep screens, brackets and wires out of the driver’s way, away from pedals and steering, and out of the path of any bag.',
    sign: 'P023',
  },
  { id: 'camera', text: 'A camera picture is an extra view and no substitute for looking.' },
  { id: 'predictions', text: 'Every value here is worked out from what was entered. Measure at the vehicle before you rely on it.' },
  { id: 'no-certificate', text: 'This plan is no certificate. Have doubtful work done or checked by a qualified person.' },
  { id: 'before-others-work', text: 'Before a jump start, welding or a battery change: pull the fuse of this build first.' },
];
