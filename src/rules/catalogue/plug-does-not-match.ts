import type { Facts } from '../../analysis/factsTypes.ts';
import type { TerminalForm } from '../../parts/types.ts';
import { PICTURE_LINKS, type PictureLink } from '../../trade/links.ts';
import { called, defineRule, part, verdicts, volts, wire } from '../defineRule.ts';
import { removeWire } from '../fixes.ts';
import type { Verdict } from '../types.ts';
import { type EndedWire, endedWires, type WireEnd } from '../wireEnds.ts';

const { fine, found } = verdicts('plug-does-not-match', 'I10');
/** Plugs that carry a picture or sound and no supply, as they are called. */
const PLUGS: ReadonlyMap<TerminalForm, string> = new Map<TerminalForm, string>([
  ['video', 'picture'],
  ['jack', 'sound'],
]);
/** Picture leads that a screen with composite and digital inputs takes. */
const SCREEN_TAKES: ReadonlySet<string> = new Set<PictureLink>(['composite', 'hdmi']);

export const plugDoesNotMatch = defineRule({
  id: 'plug-does-not-match',
  code: 'I10',
  level: 'hazard',
  title: 'Plug does not match the link',
  why: 'A plug that fits, or can be made to fit, proves nothing: two outputs joined show no picture, a ribbon for a camera is not one for a screen, and a socket that gives pictures takes none. A supply on a plug for sound or pictures ends what is behind it.',
  source: { text: 'Connector families and directions of picture links; common practice', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  check: (facts) => endedWires(facts).flatMap((w) => judge(facts, w)),
  repair: (finding) => [removeWire(finding.subject.id, 'Take this lead away')],
});

function judge(facts: Facts, { wire: w, from: a, to: b }: EndedWire): Verdict[] {
  const plug = a && PLUGS.has(a.terminal.form) ? a : b && PLUGS.has(b.terminal.form) ? b : null;
  if (!a || !b || !plug) return [];
  const subject = wire(w.id);
  const volt = facts.nominalV(facts.netAt(w.from.part, w.from.terminal)) ?? 0;
  if (volt > 0) {
    return [
      found({
        level: 'hazard',
        subject,
        related: [...new Set([a.view.part.id, b.view.part.id])].map(part),
        what: `${volts(volt)} of the supply comes to the ${PLUGS.get(plug.terminal.form)} plug of ${called(plug.view)}, which is made for a signal of about a volt.`,
        todo: 'Take this lead away, and look up what belongs on the plug.',
        figures: [{ label: 'on the plug', value: volt, unit: 'V' }],
      }),
    ];
  }
  // Sound may come over resistors that divide it; a picture may not.
  if (plug.terminal.form === 'jack' && a.terminal.form !== 'video' && b.terminal.form !== 'video') return [fine(subject)];
  const why = wrong(a, b);
  if (why === null) return [fine(subject)];
  return [
    found({
      level: 'fault',
      subject,
      related: [...new Set([a.view.part.id, b.view.part.id])].map(part),
      what: why,
      todo: 'Choose a device with the plug that belongs there, or a converter between the two.',
    }),
  ];
}

function wrong(a: WireEnd, b: WireEnd): string | null {
  if (a.terminal.form !== b.terminal.form) {
    const [picture, other] = a.terminal.form === 'video' ? [a, b] : [b, a];
    return `The picture plug of ${called(picture.view)} ends at ${named(other)}, which is no picture plug.`;
  }
  const longA = a.terminal.id === 'link';
  if (longA !== (b.terminal.id === 'link')) {
    const [link, plain] = longA ? [a, b] : [b, a];
    return `The long lead of ${called(link.view)} ends at ${called(plain.view)}: only its other half understands what is on it.`;
  }
  if (a.terminal.flow === b.terminal.flow) {
    return a.terminal.flow === 'out'
      ? `${called(a.view)} and ${called(b.view)} both send a picture on this lead.`
      : `${called(a.view)} and ${called(b.view)} both wait for a picture on this lead.`;
  }
  const [camera, screen] = a.view.kind.kind === 'camera' ? [a, b] : [b, a];
  if (camera.view.kind.kind !== 'camera' || screen.view.kind.kind !== 'touch-display') return null;
  const link = camera.view.s.str('link') as PictureLink;
  return SCREEN_TAKES.has(link) ? null : `${called(camera.view)} gives its picture by ${PICTURE_LINKS[link].title}; ${called(screen.view)} has no such input.`;
}

function named(at: WireEnd): string {
  return `terminal ${at.terminal.label || at.terminal.title} of ${called(at.view)}`;
}
