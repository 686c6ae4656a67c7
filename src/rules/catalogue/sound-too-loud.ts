import { LEVEL_RATIO } from '../../trade/sound.ts';
import { called, defineRule, part, plain, verdicts, volts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { soundPaths } from '../soundPath.ts';

const { fine, found } = verdicts('sound-too-loud', 'H4');

export const soundTooLoud = defineRule({
  id: 'sound-too-loud',
  code: 'H4',
  level: 'advice',
  stage: 'test',
  title: 'Sound is louder than the input takes',
  why: 'A sound input clips what is louder than it was made for: speech turns harsh, and the volume knob does not help, because the damage is done ahead of it.',
  source: { text: 'Line levels of adapters and radios; practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) =>
    soundPaths(facts).map(({ source, input, share }) => {
      const subject = part(input.part.id);
      const outV = source.s.num('outV') * share;
      const maxV = input.s.num('maxV');
      if (outV <= LEVEL_RATIO * maxV) return fine(subject);
      return found({
        level: 'advice',
        subject,
        related: [part(source.part.id)],
        what: `${called(source)} gives up to ${volts(outV)} at ${called(input)}, which takes ${volts(maxV)}: ${plain(outV / maxV)} times as much.`,
        todo: `Turn its level down to ${plain((100 * maxV) / outV)} % and leave it there, or put a divider into the lead.`,
        figures: [
          { label: 'arrives', value: outV, unit: 'V' },
          { label: 'takes', value: maxV, unit: 'V' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const path = soundPaths(facts).find((p) => p.input.part.id === finding.subject.id);
    const outV = path && Math.floor((path.input.s.num('maxV') / path.share) * 100) / 100;
    // 0.1 V is the least that a level setting is good for: below, noise wins.
    return path && outV && outV >= 0.1
      ? [typing(path.source.part.id, { outV }, `Set the level of ${called(path.source)} to ${volts(outV)} at most`, false)]
      : [];
  },
});
