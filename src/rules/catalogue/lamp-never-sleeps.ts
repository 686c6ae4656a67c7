import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { gather } from '../../plan/gather.ts';
import type { Band } from '../../plan/types.ts';
import { NEVER_SLEEPS_A } from '../../trade/standing.ts';
import { farEnd, movedEnd, onlyWire } from '../build.ts';
import { amps, called, defineRule, part, two, verdicts } from '../defineRule.ts';
import { fusedLine, keyFeeds } from '../keyLine.ts';
import { once } from '../once.ts';
import { parkedKnown } from '../parkedShare.ts';
import { grounded, netAt, railV } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('lamp-never-sleeps', 'G6');

export const lampNeverSleeps = defineRule({
  id: 'lamp-never-sleeps',
  code: 'G6',
  level: 'advice',
  title: 'A lamp or divider that never sleeps',
  why: 'A small lamp on the permanent feed shines into an empty vehicle, and a divider there warms the air. Each takes little, but takes it day and night.',
  source: { text: 'Fitters’ habit: indicators hang behind the switch or on the key', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => strings(facts).map((s) => judge(facts, s)),
  repair: (finding, facts) => {
    const string = strings(facts).find((s) => s.head.part.id === finding.subject.id);
    return string ? toKey(facts, string) : [];
  },
});

/** Resistors, LEDs and optocoupler inputs in one line between a rail of the vehicle and ground. */
interface Line {
  /** What stands for it: its lamp, else the first resistor. */
  readonly head: PartView;
  readonly views: readonly PartView[];
}

/** Element, port and ends of the kinds that make such a line. */
const KINDS: Readonly<Record<string, { readonly element: string; readonly port?: string; readonly ends: readonly [string, string] }>> = {
  led: { element: 'led', ends: ['A', 'K'] },
  optocoupler: { element: 'opto', port: 'led', ends: ['A', 'K'] },
  resistor: { element: 'r', ends: ['1', '2'] },
};
const LAMPS_FIRST = Object.keys(KINDS);

const strings = once((facts): readonly Line[] => {
  const rest = new Set(facts.ofKind(...LAMPS_FIRST));
  const onNet = new Map<number, PartView[]>();
  for (const view of rest) {
    for (const net of new Set(netsOf(facts, view))) gather(onNet, net, view);
  }
  const list: Line[] = [];
  for (const view of rest) {
    const group = new Set([view]);
    let onRail = false;
    for (const member of group) {
      for (const net of netsOf(facts, member)) {
        if (net === -1 || grounded(facts, net)) continue;
        const volt = railV(facts, net);
        if (volt !== null) {
          onRail ||= volt === facts.plan.vehicle.systemV;
          continue;
        }
        for (const other of onNet.get(net)!) if (rest.has(other)) group.add(other);
      }
    }
    for (const member of group) rest.delete(member);
    const views = [...group].sort((a, b) => LAMPS_FIRST.indexOf(a.kind.kind) - LAMPS_FIRST.indexOf(b.kind.kind));
    if (onRail) list.push({ head: views[0]!, views });
  }
  return list;
});

function netsOf(facts: Facts, view: PartView): number[] {
  return KINDS[view.kind.kind]!.ends.map((t) => netAt(facts, view, t));
}

function judge(facts: Facts, { head, views }: Line): Verdict {
  const subject = part(head.part.id);
  if (!parkedKnown(facts)) return unknown(subject, 'the parked state could not be worked out');
  let [amp, band]: [number, Band] = [0, 'typical'];
  for (const b of ['typical', 'high'] as const) {
    for (const v of views) {
      const { element, port } = KINDS[v.kind.kind]!;
      const here = Math.abs(facts.elementA(v.part.id, element, 'OFF_ASLEEP', b, port) ?? 0);
      if (here > 1.001 * amp) [amp, band] = [here, b];
    }
  }
  if (amp <= NEVER_SLEEPS_A) return fine(subject);
  return found({
    level: 'advice',
    subject,
    related: views.filter((v) => v !== head).map((v) => part(v.part.id)),
    what: `${called(head)} takes ${amps(amp)} day and night, ${two(amp * 24 * 7)} Ah a week, with the vehicle parked.`,
    todo: 'Feed it behind the switch, or from a line that falls with the key.',
    figures: [{ label: 'parked', value: amp, unit: 'A' }],
    state: 'OFF_ASLEEP',
    band,
  });
}

/** Its end at the rail goes to a line that falls with the key. */
function toKey(facts: Facts, { views }: Line): Repair[] {
  const feed = keyFeeds(facts)[0];
  const to = feed && fusedLine(facts, feed);
  if (!feed || !to) return [];
  for (const view of views) {
    for (const terminal of KINDS[view.kind.kind]!.ends) {
      const wire = railV(facts, netAt(facts, view, terminal)) === facts.plan.vehicle.systemV ? onlyWire(facts.plan, view.part.id, terminal) : null;
      if (!wire) continue;
      return [
        {
          title: `Feed it from ${called(feed)}`,
          safe: false,
          edit: (plan) => {
            const row = plan.wires[wire.id];
            if (!row) return null;
            const draft = new Draft(plan);
            draft.setWire(movedEnd(row, farEnd(row, view.part.id), to));
            return draft.edit('repair.apply', 'Feed a lamp from the key');
          },
        },
      ];
    }
  }
  return [];
}
