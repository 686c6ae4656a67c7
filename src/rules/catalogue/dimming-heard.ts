import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { HEARD_HZ } from '../../trade/sound.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { pinUsesSeeing } from '../pins.ts';
import { soundPaths } from '../soundPath.ts';
import { netAt } from '../trace.ts';

const { fine, found, unknown } = verdicts('dimming-heard', 'H5');

export const dimmingHeard = defineRule({
  id: 'dimming-heard',
  code: 'H5',
  level: 'advice',
  stage: 'software',
  title: 'Dimming that can be heard',
  why: 'A backlight dimmed by pulses takes its current in bursts. Where it shares supply and ground with a sound output, the bursts are played: a whistle that changes with the brightness.',
  source: { text: 'Practice; what ears hear, 20 Hz to 20 kHz', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => {
    const joined = soundPaths(facts).filter((p) => !p.isolated);
    return dimmed(facts).map((display) => {
      const subject = part(display.part.id);
      const path = joined[0];
      if (!path) return fine(subject);
      const hz = display.s.num('dimHz');
      if (hz === 0) return unknown(subject, `how many pulses a second dim ${called(display)}`);
      if (hz < HEARD_HZ.least || hz > HEARD_HZ.most) return fine(subject);
      return found({
        level: 'advice',
        subject,
        related: [part(path.source.part.id)],
        what: `${called(display)} is dimmed by ${plain(hz)} pulses a second and shares supply and ground with ${called(path.source)}, whose lead has no isolator: between ${HEARD_HZ.least} and ${HEARD_HZ.most} a second they can be heard.`,
        todo: `Let the program dim with ${HEARD_HZ.quiet / 1000} kHz or more, or put an isolator into the sound lead.`,
        figures: [{ label: 'pulses', value: hz, unit: 'Hz' }],
      });
    });
  },
  repair: (finding) => [typing(finding.subject.id, { dimHz: HEARD_HZ.quiet }, `Let the program dim with ${HEARD_HZ.quiet / 1000} kHz`, false)],
});

/** Displays whose brightness a pin of the computer sets, where sound is played as well. */
function dimmed(facts: Facts): PartView[] {
  if (soundPaths(facts).length === 0) return [];
  return facts.ofKind('touch-display').filter((d) => {
    const net = netAt(facts, d, 'bl');
    return net !== -1 && pinUsesSeeing(facts, net).length > 0;
  });
}
