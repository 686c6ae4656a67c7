import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { PICTURE_LATE_S } from '../../trade/links.ts';
import { poweredWhileDriving } from '../cameraEdits.ts';
import { called, defineRule, part, plain, plainApart, verdicts } from '../defineRule.ts';
import { grounded, type Hop, netAt, partsOn, waysFrom } from '../trace.ts';

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
      const [shows, aim] = plainApart(total, most);
      return [
        found({
          level: 'advice',
          subject,
          related: feeds.map((f) => part(f.part.id)),
          what: `${called(view)} shows the way ${shows} s after reverse is engaged${feeds.length > 0 ? `: it starts only then, for ${plain(view.s.num('startS'))} s` : ''}; ${aim} s is the aim.`,
          todo:
            feeds.length > 0
              ? 'Keep the camera powered while driving, and let the reversing lamp only choose the picture.'
              : 'Take a link and a screen that lag less.',
          figures: [{ label: 'until it shows', value: total, unit: 's' }],
        }),
      ];
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const started = view ? view.s.num('lateS') <= facts.threshold('pictureLateS', PICTURE_LATE_S) : false;
    return view && started && (feedsOf(facts, view) ?? []).length > 0 ? poweredWhileDriving(facts, view) : [];
  },
});

/** Reversing-lamp feeds when nothing else feeds the camera, none when something does, null when nothing known feeds it. */
function feedsOf(facts: Facts, view: PartView): readonly PartView[] | null {
  const feeds = feedsBehind(facts, netAt(facts, view, '+'), (hop) => !worksInReverse(facts, hop));
  const own = feeds.filter((f) => f.line === 'reverse').map((f) => f.view);
  if (feeds.length > own.length) return [];
  // What lies behind a relay that the lamp works comes with the lamp.
  const relayed = feedsBehind(facts, netAt(facts, view, '+'), () => true).length > feeds.length;
  if (own.length === 0 && !relayed) return null;
  return [...new Set(relayed ? facts.ofKind('feed-reverse') : own)];
}

interface Feed {
  readonly view: PartView;
  readonly line: string | undefined;
}

/** What feeds a net over fuses, contacts and diodes; a feed of the vehicle ends the way. */
function feedsBehind(facts: Facts, net: number, passes: (hop: Hop) => boolean): readonly Feed[] {
  const through = (hop: Hop): boolean => {
    const type = hop.link.type;
    return (type === 'fuse' || type === 'conductor' || type === 'contact' || (type === 'diode' && !hop.forward)) && passes(hop);
  };
  return [...waysFrom(facts, net, through, (n) => grounded(facts, n)).keys()].flatMap((n) =>
    partsOn(facts, n).flatMap(({ view, terminal }) =>
      (view.facts.sources ?? []).flatMap((s) => (s.terminal === terminal && s.kind !== 'pin' && s.kind !== 'audio' ? [{ view, line: s.line }] : [])),
    ),
  );
}

/** Is it the working contact of a relay whose coil the reversing lamp alone feeds? */
function worksInReverse(facts: Facts, { views, link }: Hop): boolean {
  const [relay] = views;
  if (relay?.kind.kind !== 'relay' || link.type !== 'contact' || (link.a !== '87' && link.b !== '87')) return false;
  const worked = ['85', '86'].flatMap((t) => feedsBehind(facts, netAt(facts, relay, t), () => true));
  return worked.length > 0 && worked.every((f) => f.line === 'reverse');
}
