import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { gather } from '../../plan/gather.ts';
import { listed } from '../../plan/listed.ts';
import type { Id, Wire } from '../../plan/types.ts';
import { SCREEN } from '../../trade/grounds.ts';
import { end, groundEnd, newWire } from '../build.ts';
import { amps, called, defineRule, part, two, verdicts, wire, wireName } from '../defineRule.ts';
import { BODY, bridgesAmong, groundJoins, type Joins, rooter } from '../groundJoins.ts';
import { mostA } from '../groundPoints.ts';
import { once } from '../once.ts';
import type { Finding, Repair, Subject, Verdict } from '../types.ts';

const { fine, found } = verdicts('current-through-screen', 'H3');

export const currentThroughScreen = defineRule({
  id: 'current-through-screen',
  code: 'H3',
  level: 'hazard',
  title: 'Supply current comes home through a screen',
  why: 'The screen of a picture or data lead is joined to 0 V at both ends. Where it is the only way back, or the best one, it carries what the device draws: the plug overheats, the picture rolls, a port dies.',
  source: { text: 'Universal practice: every device a return of its own, as thick as its feed', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => [...screened(facts).map((s) => judge(facts, s)), ...looseReturns(facts)],
  repair: (finding, facts) => (finding.subject.kind === 'wire' ? second(facts, finding) : ownReturn(facts, finding)),
});

/** A device with a supply of its own and a lead whose screen reaches its 0 V. */
interface Screened {
  readonly view: PartView;
  readonly plus: string;
  readonly minus: string;
  readonly leads: readonly Wire[];
  /** Does its 0 V reach the body, or what feeds it, without any screen? */
  readonly ownReturn: boolean;
  readonly amp: number;
}

const screened = once((facts): readonly Screened[] => {
  const joins = groundJoins(facts);
  const leadsOf = screenedLeads(joins);
  if (leadsOf.size === 0) return [];
  const all = rooter(joins, () => true);
  const plain = rooter(joins, (j) => !j.screen);
  const body = joins.at(BODY);
  return [...leadsOf].flatMap(([id, leads]) => {
    const view = facts.parts.get(id);
    const load = view?.facts.loads?.[0];
    // What is fed by its USB plug has no other way home, and is made for it.
    if (!view || !load || load.minus.endsWith('~0') || view.kind.kind === 'computer' || !facts.isWired(`${id}.${load.plus}`)) return [];
    const minus = joins.at(`${id}.${load.minus}`);
    if (all(minus) !== all(body)) return [];
    return [{ view, plus: load.plus, minus: load.minus, leads, ownReturn: plain(minus) === plain(body), amp: Math.max(load.peakA, load.heatA) }];
  });
});

/** Cables with a second conductor, by the parts they end on. */
function screenedLeads(joins: Joins): ReadonlyMap<Id, readonly Wire[]> {
  const of = new Map<Id, Wire[]>();
  for (const { wire: w, screen } of joins.all) {
    if (!w || !screen) continue;
    for (const id of new Set([w.from.part, w.to.part])) gather(of, id, w);
  }
  return of;
}

/** Elements by which parts join the screens of their plugs to their 0 V. */
const SCREENS: Readonly<Record<string, readonly string[]>> = {
  'touch-display': ['screen', 'touchScreen'],
  'usb-hub': ['screen'],
  camera: ['screen'],
  'video-sender': ['screen', 'linkScreen'],
  'video-receiver': ['screen', 'linkScreen'],
};

function judge(facts: Facts, s: Screened): Verdict {
  const { view } = s;
  const subject = part(view.part.id);
  const related: Subject[] = s.leads.map((w) => wire(w.id));
  const leads = listed(s.leads.map((w) => wireName(facts, w.id)));
  if (!s.ownReturn) {
    if (s.amp <= SCREEN.soleA) return fine(subject);
    return found({
      level: 'hazard',
      subject,
      related,
      what: `${called(view)} has no ground wire of its own: all of its ${amps(s.amp)} comes home through the screen of ${leads}.`,
      todo: 'Give it a ground wire as thick as its feed, from its 0 V to where its supply comes from.',
      figures: [{ label: 'through the screen', value: s.amp, unit: 'A' }],
      state: 'RUN_CHARGING',
      band: 'low',
      data: { why: 'sole' },
    });
  }
  const most = (SCREENS[view.kind.kind] ?? []).map((e) => mostA(facts, view, e)).sort((a, b) => b.amp - a.amp)[0];
  if (!most) return fine(subject);
  const share = s.amp > 0 ? most.amp / s.amp : 0;
  if (most.amp <= SCREEN.sharedA && (s.amp <= SCREEN.bigA || share <= SCREEN.share)) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related,
    what: `Of the ${amps(s.amp)} that ${called(view)} draws, ${amps(most.amp)} comes home through the screen of ${leads}: its ground wire is too thin or too long beside it.`,
    todo: 'Make its ground wire thicker than its feed, or feed it nearer to the computer.',
    figures: [
      { label: 'through the screen', value: most.amp, unit: 'A' },
      { label: 'share', value: share, unit: 'of its current' },
    ],
    state: most.state,
    band: most.band,
    data: { why: 'shared' },
  });
}

/** Ground wires which, should they come loose, leave their current no way home but a screen. */
function looseReturns(facts: Facts): Verdict[] {
  const joins = groundJoins(facts);
  if (!joins.all.some((j) => j.screen)) return [];
  const heavy = joins.all.filter((j) => isHeavy(facts, j.wire, j.screen));
  if (heavy.length === 0) return [];
  const without = bridgesAmong(joins, heavy, (j) => !j.screen);
  const withAll = bridgesAmong(joins, heavy, () => true);
  return heavy.map((j) => {
    const w = j.wire!;
    const subject = wire(w.id);
    const report = facts.analysis.wires[w.id]!;
    if (!without.has(j) || withAll.has(j)) return fine(subject);
    const name = wireName(facts, w.id);
    return found({
      level: 'advice',
      subject,
      related: [...new Set([w.from.part, w.to.part])].map(part),
      what: `Should ${name} come loose, another ${two(report.worstA)} A would come home through the screens of picture and data leads instead.`,
      todo: 'Lay a second ground wire beside it, or crimp and check this one with care.',
      figures: [{ label: 'then through screens', value: report.worstA, unit: 'A' }],
      state: report.worstState,
      band: report.worstBand,
    });
  });
}

function isHeavy(facts: Facts, w: Wire | null, screen: boolean): boolean {
  const report = w && !screen ? facts.analysis.wires[w.id] : undefined;
  return w?.owner === 'build' && report?.role === 'ground' && report.worstA > SCREEN.bigA;
}

/** A ground wire of its own, to where its supply comes from. */
function ownReturn(facts: Facts, finding: Finding): Repair[] {
  const s = screened(facts).find((x) => x.view.part.id === finding.subject.id);
  if (!s || finding.data?.why !== 'sole') return [];
  const from = facts.sourcesFor(`${s.view.part.id}.${s.plus}`)[0];
  return [
    {
      title: `Give ${called(s.view)} a ground wire of its own`,
      safe: true,
      edit: (plan) => {
        const row = plan.parts[s.view.part.id];
        const back =
          from && !from.source.returns.startsWith('@') && !from.source.returns.includes('~')
            ? end(from.view.part.id, from.source.returns)
            : row && groundEnd(plan, row.zone);
        if (!row || !back) return null;
        const draft = new Draft(plan);
        newWire(draft, end(row.id, s.minus), back);
        return draft.edit('repair.apply', 'Add a ground wire');
      },
    },
  ];
}

/** A second wire beside the only one. */
function second(facts: Facts, finding: Finding): Repair[] {
  const w = facts.plan.wires[finding.subject.id];
  const holdsOne = (part: Id, terminal: string): boolean => facts.at(`${part}.${terminal}`)?.terminal.form === 'header';
  if (!w || holdsOne(w.from.part, w.from.terminal) || holdsOne(w.to.part, w.to.terminal)) return [];
  return [
    {
      title: `Lay a second ground wire beside ${wireName(facts, w.id)}`,
      safe: false,
      edit: (plan) => {
        const row = plan.wires[w.id];
        if (!row) return null;
        const draft = new Draft(plan);
        newWire(draft, row.from, row.to, row.lengthM === undefined ? {} : { lengthM: row.lengthM });
        return draft.edit('repair.apply', 'Add a second ground wire');
      },
    },
  ];
}
