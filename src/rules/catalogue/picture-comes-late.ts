import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { PICTURE_LATE_S } from '../../trade/links.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';

const { fine, found } = verdicts('picture-comes-late', 'I12');

export const pictureComesLate = defineRule({
  id: 'picture-comes-late',
  code: 'I12',
  level: 'advice',
  title: 'Picture comes after the reversing has begun',
  why: 'A camera that the reversing lamp switches on starts only then. Until it shows anything the vehicle has moved a metre. Either way a picture never replaces looking.',
  source: { text: 'Start of cameras 1 to 3 s; one second in all as the aim: common practice', grade: "fitters' habit" },
  needs: 'graph',
  limits: [
    {
      key: 'pictureLateS',
      title: 'Picture after reverse is engaged, aim',
      unit: 's',
      value: PICTURE_LATE_S,
      least: 0.1,
      most: 10,
      basis: 'common practice, no source',
    },
  ],
  check: (facts) =>
    facts.ofKind('camera').flatMap((view) => {
      const feeds = feedsOf(facts, view);
      if (feeds === null) return [];
      const subject = part(view.part.id);
      const late = view.s.num('lateS');
      const total = feeds.length > 0 ? view.s.num('startS') + late : late;
      const most = facts.threshold('pictureLateS', PICTURE_LATE_S);
      if (total <= most) return [fine(subject)];
      return [
        found({
          level: 'advice',
          subject,
          related: feeds.map((f) => part(f.part.id)),
          what: `${called(view)} shows the way ${plain(total)} s after reverse is engaged${feeds.length > 0 ? `: it starts only then, for ${plain(view.s.num('startS'))} s` : ''}; ${plain(most)} s is the aim.`,
          todo:
            feeds.length > 0
              ? 'Keep the camera powered while driving, and let the reversing lamp only choose the picture.'
              : 'Take a link and a screen that lag less.',
          figures: [{ label: 'until it shows', value: total, unit: 's' }],
        }),
      ];
    }),
});

/** Reversing-lamp feeds when nothing else feeds the camera, none when something does, null when nothing known feeds it. */
function feedsOf(facts: Facts, view: PartView): readonly PartView[] | null {
  const sources = facts.sourcesFor(`${view.part.id}.+`);
  if (sources.length === 0) return null;
  return sources.every((s) => s.source.line === 'reverse') ? [...new Set(sources.map((s) => s.view))] : [];
}
