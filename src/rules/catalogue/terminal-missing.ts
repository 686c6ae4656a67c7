import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { TerminalDef } from '../../parts/types.ts';
import { addWire } from '../../plan/edits.ts';
import { listed } from '../../plan/listed.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { converters } from '../rails.ts';

const { fine, found } = verdicts('terminal-missing', 'B14');

export const terminalMissing = defineRule({
  id: 'terminal-missing',
  code: 'B14',
  level: 'fault',
  title: 'A part has supply but misses a terminal',
  why: 'A part that has its plus but no ground looks for its own way home: through a screen, a signal wire or another part.',
  source: { text: 'Universal fitting practice', grade: "fitters' habit" },
  needs: 'graph',
  always: true,
  check: (facts) =>
    [...facts.parts.values()]
      .filter((v) => supplied(facts, v))
      .map((view) => {
        const missing = loose(facts, view);
        if (missing.length === 0) return fine(part(view.part.id));
        const names = listed(missing.map((t) => named(t)));
        return found({
          level: 'fault',
          subject: part(view.part.id),
          what: `${called(view)} has supply, but nothing is joined to its ${names}.`,
          todo: todoFor(missing),
        });
      }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const missing = view ? loose(facts, view) : [];
    const back = view && missing.length === 1 && missing[0]!.role === 'ground' ? wayBack(facts, view) : null;
    if (!view || !back) return [];
    const from = { part: view.part.id, terminal: missing[0]!.id };
    return [
      { title: `Join it to ${called(back.to)}`, safe: true, edit: (plan) => addWire(plan, from, { part: back.to.part.id, terminal: back.terminal }).edit },
    ];
  },
});

/** "− (supply minus)"; a title that has the label in it says enough. */
function named(t: TerminalDef): string {
  const title = t.title.charAt(0).toLowerCase() + t.title.slice(1);
  return t.label === '' || t.title.endsWith(t.label) ? title : `${t.label} (${title})`;
}

function todoFor(missing: readonly TerminalDef[]): string {
  if (missing.some((t) => t.role === 'ground')) return 'Give it a ground wire of its own.';
  return missing.some((t) => t.role === 'coil') ? 'Lead it to ground, or to what is to switch the coil.' : 'Join what is missing.';
}

/** Takes current, and its plus hangs on a source. */
function supplied(facts: Facts, view: PartView): boolean {
  return [...(view.facts.loads ?? []), ...(view.facts.polar ?? [])].some((pair) => {
    const key = `${view.part.id}.${pair.plus}`;
    return (
      facts.isWired(key) &&
      !facts.isGround(facts.netOf(key)) &&
      facts.sourcesFor(key).some((s) => s.view !== view && s.source.kind !== 'pin' && s.source.kind !== 'audio')
    );
  });
}

/** Required terminals that nothing is joined to; an output that is not used yet harms nobody, nor does its own return. */
function loose(facts: Facts, view: PartView): TerminalDef[] {
  const returns = new Set((view.facts.sources ?? []).map((s) => s.returns));
  const homes = new Set((view.facts.loads ?? []).map((load) => load.minus));
  return view.terminals.filter((t) => t.required && (homes.has(t.id) || (t.flow !== 'out' && !returns.has(t.id))) && !facts.isWired(`${view.part.id}.${t.id}`));
}

/** Where its ground wire belongs: the 0 V of the converter that feeds it, else a ground point. */
function wayBack(facts: Facts, view: PartView): { readonly to: PartView; readonly terminal: string } | null {
  const plus = [...(view.facts.loads ?? []), ...(view.facts.polar ?? [])].map((p) => `${view.part.id}.${p.plus}`);
  const feeder = converters(facts).find((c) => {
    const reached = c.view === view ? null : facts.reach(c.outKey, ['fuse', 'contact', 'conductor', 'diode']);
    return reached !== null && plus.some((key) => reached.has(key));
  });
  if (feeder) return { to: feeder.view, terminal: feeder.source.returns };
  const ground = nearestGround(facts, view);
  return ground && { to: ground, terminal: '31' };
}

/** The ground point of its own zone, else the only one there is. */
function nearestGround(facts: Facts, view: PartView): PartView | null {
  const points = facts.ofKind('chassis-ground').filter((v) => v.part.owner === 'build');
  const near = points.filter((v) => v.part.zone === view.part.zone);
  return near[0] ?? (points.length === 1 ? points[0]! : null);
}
