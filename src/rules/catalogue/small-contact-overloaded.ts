import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { listed } from '../../plan/listed.ts';
import type { Wire } from '../../plan/types.ts';
import { HEADER_CONTACT_A, HOT_CONTACT, worstShare } from '../../trade/fitting.ts';
import { HEADER } from '../../trade/header.ts';
import { BEYOND, flowingFirst } from '../beyond.ts';
import { end, farEnd, newWire } from '../build.ts';
import { amps, ampsApart, called, defineRule, part, verdicts } from '../defineRule.ts';
import type { Level, Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('small-contact-overloaded', 'B5');
/** A contact that carries less than this share of the rail's current has another job. */
const SHARES = 0.05;
/** Enough for every board: both 5 V pins and three grounds. */
const WANTED = { '5V': 2, GND: 3 } as const;

export const smallContactOverloaded = defineRule({
  id: 'small-contact-overloaded',
  code: 'B5',
  level: 'fault',
  title: 'Small contact carries too much',
  why: 'A contact of the header or of a small plug touches on a spot the size of a grain of sand. Too much current heats it, heat slackens its spring, and a slack spring heats more: it browns the plastic and the computer restarts on bumps.',
  source: { text: 'A reference page on 2.54 mm contacts (read, low authority): 3 A; sharing and heat: common practice, no source', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) => [
    ...facts.ofKind('computer').flatMap((v) => header(facts, v)),
    ...facts.ofKind('connector', 'terminal-strip').flatMap((v) => ways(facts, v)),
  ],
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    return view?.kind.kind === 'computer' ? morePins(facts, view) : [];
  },
});

interface Rail {
  readonly rail: '5V' | 'GND';
  readonly totalA: number;
  readonly contacts: number;
  /** What the worst contact carries when they share as they do. */
  readonly worstA: number;
}

/** Wires on header cells of one rail, with the pin. */
function cells(facts: Facts, view: PartView, rail: Rail['rail']): { readonly pin: number; readonly wire: Wire; readonly amp: number }[] {
  return HEADER.filter((p) => p.rail === rail).flatMap(({ pin }) => {
    const key = `${view.part.id}.${pin}`;
    const wires = facts.netWires(facts.netOf(key)).filter((w) => [w.from, w.to].some((e) => e.part === view.part.id && e.terminal === `${pin}`));
    return wires.map((wire) => ({ pin, wire, amp: facts.analysis.wires[wire.id]?.heatA ?? 0 }));
  });
}

function railOf(facts: Facts, view: PartView, rail: Rail['rail']): Rail | null {
  const all = cells(facts, view, rail);
  const totalA = all.reduce((sum, c) => sum + c.amp, 0);
  const carrying = new Map<number, number>();
  for (const c of all) if (c.amp >= SHARES * totalA) carrying.set(c.pin, (carrying.get(c.pin) ?? 0) + c.amp);
  if (totalA < 1e-3) return null;
  return { rail, totalA, contacts: carrying.size, worstA: Math.max(totalA * worstShare(carrying.size), ...carrying.values()) };
}

function limitA(view: PartView): number {
  return HEADER_CONTACT_A * (view.maxC >= HOT_CONTACT.fromC ? HOT_CONTACT.share : 1);
}

function header(facts: Facts, view: PartView): Verdict[] {
  const rails = (['5V', 'GND'] as const).flatMap((r) => railOf(facts, view, r) ?? []);
  const worst = [...rails].sort((a, b) => b.worstA - a.worstA)[0];
  if (!worst) return [];
  const subject = part(view.part.id);
  const most = limitA(view);
  const level: Level | null = worst.worstA > most ? 'fault' : worst.worstA > HEADER_CONTACT_A / 2 ? 'advice' : null;
  if (level === null) return [fine(subject)];
  const beyond = worst.totalA > BEYOND.amp;
  const name = worst.rail === '5V' ? '5 V' : 'ground';
  return [
    found({
      level,
      subject,
      what: `${flowingFirst(worst.totalA)} passes ${worst.contacts === 1 ? 'one contact' : `${worst.contacts} contacts`} for ${name} of ${called(view)}${worst.contacts === 1 || beyond ? '' : `, the worst of which takes ${amps(worst.worstA)}`}; a header contact carries ${amps(most)} at ${view.maxC} °C${level === 'advice' ? ', and half of its rating is the usual aim' : ''}.`,
      todo: 'Use both 5 V pins and three ground pins, or feed it over its supply socket.',
      figures: [
        ...(beyond ? [] : [{ label: 'worst contact', value: worst.worstA, unit: 'A' }]),
        { label: 'carries', value: most, unit: 'A' },
        ...(beyond ? [] : [{ label: 'together', value: worst.totalA, unit: 'A' }]),
      ],
    }),
  ];
}

/** Plugs and strips: what the wires on one way carry, against its rating. */
function ways(facts: Facts, view: PartView): Verdict[] {
  const rated = view.s.num(view.kind.kind === 'connector' ? 'contactA' : 'ratedA');
  let worst = { amp: 0, label: '' };
  for (const t of view.terminals) {
    const key = `${view.part.id}.${t.id}`;
    if (!facts.isWired(key)) continue;
    const amp = facts
      .netWires(facts.netOf(key))
      .filter((w) => [w.from, w.to].some((e) => e.part === view.part.id && e.terminal === t.id))
      .reduce((sum, w) => sum + (facts.analysis.wires[w.id]?.heatA ?? 0), 0);
    if (amp > worst.amp) worst = { amp, label: t.label };
  }
  if (worst.amp < 1e-3) return [];
  const subject = part(view.part.id);
  if (worst.amp <= rated) return [fine(subject)];
  const [carries, made] = ampsApart(worst.amp, rated);
  return [
    found({
      level: 'fault',
      subject,
      what: `Way ${worst.label} of ${called(view)} carries ${carries} for long, and is made for ${made}.`,
      todo: 'Take one with stronger contacts, or divide the current over two ways.',
      figures: [
        { label: 'worst contact', value: worst.amp, unit: 'A' },
        { label: 'carries', value: rated, unit: 'A' },
      ],
    }),
  ];
}

/** The missing 5 V and ground pins, each with a wire like the one that is there. */
function morePins(facts: Facts, view: PartView): Repair[] {
  const id = view.part.id;
  const news = (['5V', 'GND'] as const).flatMap((rail) => {
    const used = cells(facts, view, rail);
    const model = [...used].sort((a, b) => b.amp - a.amp)[0];
    const taken = new Set(used.map((c) => c.pin));
    const carrying = railOf(facts, view, rail)?.contacts ?? 0;
    const free = HEADER.filter((p) => p.rail === rail && !taken.has(p.pin)).map((p) => p.pin);
    return model ? free.slice(0, Math.max(0, WANTED[rail] - carrying)).map((pin) => ({ pin, model: model.wire })) : [];
  });
  if (news.length === 0) return [];
  const title = `Use header ${news.length === 1 ? 'pin' : 'pins'} ${listed(news.map((n) => `${n.pin}`))} as well`;
  return [
    {
      title,
      safe: true,
      edit: (plan) => {
        const draft = new Draft(plan);
        for (const { pin, model } of news) {
          const row = plan.wires[model.id];
          if (!row) return null;
          const { id: _id, from: _from, to: _to, owner: _owner, number: _number, bends: _bends, fitted: _fitted, note: _note, ...looks } = row;
          newWire(draft, farEnd(row, id), end(id, `${pin}`), looks);
        }
        return draft.edit('wire.add', title);
      },
    },
  ];
}
