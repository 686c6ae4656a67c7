import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { TerminalDef } from '../../parts/types.ts';
import { addWire } from '../../plan/edits.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';

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
        const names = missing.map((t) => `${t.label || t.id} (${t.title.toLowerCase()})`).join(' and ');
        return found({
          level: 'fault',
          subject: part(view.part.id),
          what: `${called(view)} has supply, but nothing is joined to its ${names}.`,
          todo: missing.some((t) => t.role === 'ground') ? 'Give it a ground wire of its own.' : 'Join what is missing.',
        });
      }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const missing = view ? loose(facts, view) : [];
    const ground = view && missing.length === 1 && missing[0]!.role === 'ground' ? nearestGround(facts, view) : null;
    if (!view || !ground) return [];
    const title = `Join it to ${called(ground)}`;
    const from = { part: view.part.id, terminal: missing[0]!.id };
    return [{ title, safe: true, edit: (plan) => addWire(plan, from, { part: ground.part.id, terminal: '31' }).edit }];
  },
});

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
  for (const load of view.facts.loads ?? []) returns.delete(load.minus);
  return view.terminals.filter((t) => t.required && t.flow !== 'out' && !returns.has(t.id) && !facts.isWired(`${view.part.id}.${t.id}`));
}

/** The ground point of its own zone, else the only one there is. */
function nearestGround(facts: Facts, view: PartView): PartView | null {
  const points = facts.ofKind('chassis-ground').filter((v) => v.part.owner === 'build');
  const near = points.filter((v) => v.part.zone === view.part.zone);
  return near[0] ?? (points.length === 1 ? points[0]! : null);
}
