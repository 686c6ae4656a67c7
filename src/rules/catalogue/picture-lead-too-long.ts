import type { Facts, PartView, TerminalKey } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import type { Wire } from '../../plan/types.ts';
import { PICTURE_LINKS, type PictureLink } from '../../trade/links.ts';
import { called, defineRule, part, plainApart, verdicts, wire } from '../defineRule.ts';
import { along } from '../taps.ts';

const { fine, found } = verdicts('picture-lead-too-long', 'I3');

export const pictureLeadTooLong = defineRule({
  id: 'picture-lead-too-long',
  code: 'I3',
  level: 'fault',
  title: 'Picture lead too long for its kind',
  why: 'Each kind of picture has its reach: a flat ribbon a hand’s length, a digital plug a few metres, a coaxial lead the length of a bus. Beyond it the picture sparkles, freezes or never comes.',
  source: { text: 'Ribbon 0.3 m (1 m at low rate), digital plug and USB 5 m, composite 30 m: practice and memory; USB read', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) =>
    pictureLeads(facts).map((lead) => {
      const subject = wire(lead.wires[0]!.id);
      if (lead.lengthM <= lead.sureM) return fine(subject);
      const over = lead.lengthM > lead.mostM;
      const [long, reaches] = plainApart(lead.lengthM, over ? lead.mostM : lead.sureM);
      return found({
        level: over ? 'fault' : 'advice',
        subject,
        related: [...lead.wires.slice(1).map((w) => wire(w.id)), part(lead.from.part.id), ...(lead.to === lead.from ? [] : [part(lead.to.part.id)])],
        what: `The picture from ${called(lead.from)} to ${called(lead.to)} goes over ${long} m; ${lead.title} ${over ? `reaches ${reaches} m` : `is sure of ${reaches} m, and of more at a low rate alone`}.`,
        todo: 'Choose a link that reaches: composite over coaxial lead, or a sender and receiver.',
        figures: [
          { label: 'lead', value: lead.lengthM, unit: 'm' },
          { label: 'reaches', value: over ? lead.mostM : lead.sureM, unit: 'm' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const lead = pictureLeads(facts).find((l) => l.wires[0]!.id === finding.subject.id);
    if (lead?.from.kind.kind !== 'camera' || lead.to.kind.kind !== 'touch-display' || lead.lengthM > PICTURE_LINKS.composite.sureM) return [];
    return [
      {
        title: 'Take a camera with a composite picture',
        safe: false,
        edit: (plan) => setSettings(plan, lead.from.part.id, { link: 'composite' }),
      },
    ];
  },
});

interface PictureLead {
  readonly from: PartView;
  readonly to: PartView;
  readonly wires: readonly Wire[];
  readonly lengthM: number;
  readonly title: string;
  readonly sureM: number;
  readonly mostM: number;
}

/** Every lead from what gives a picture to what takes it. */
function pictureLeads(facts: Facts): PictureLead[] {
  const list: PictureLead[] = [];
  for (const from of facts.ofKind('camera', 'computer', 'video-sender', 'video-receiver')) {
    for (const t of from.terminals) {
      if (t.form !== 'video' || t.flow !== 'out') continue;
      const key: TerminalKey = `${from.part.id}.${t.id}`;
      for (const [at, steps] of facts.isWired(key) ? facts.reach(key, ['conductor']) : []) {
        const hit = facts.at(at);
        if (!hit || hit.view === from || hit.terminal.form !== 'video') continue;
        const { wires, lengthM } = along(facts, steps);
        if (wires.length > 0) list.push({ from, to: hit.view, wires, lengthM, ...reachOf(from) });
      }
    }
  }
  return list;
}

function reachOf(from: PartView): Pick<PictureLead, 'title' | 'sureM' | 'mostM'> {
  if (from.kind.kind === 'video-sender') {
    const reachM = from.s.num('reachM');
    return { title: 'this pair of sender and receiver', sureM: reachM, mostM: reachM };
  }
  return PICTURE_LINKS[from.kind.kind === 'camera' ? (from.s.str('link') as PictureLink) : 'hdmi'];
}
