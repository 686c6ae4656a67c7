import { settingsOf } from '../parts/definePart.ts';
import { partKind, partKinds } from '../parts/index.ts';
import type { PartKind, TerminalDef } from '../parts/types.ts';
import { wiresOfPart } from '../plan/connect.ts';
import type { Id, Part, Plan, Values, Wire } from '../plan/types.ts';
import { terminalsOf } from './sensibleEnds.ts';

/** What becomes of a part's wires when another kind takes its place. */
export interface Exchange {
  readonly kind: PartKind;
  readonly settings: Values;
  /** Old terminal to new. */
  readonly to: Readonly<Record<string, string>>;
  readonly kept: readonly Wire[];
  readonly lost: readonly Wire[];
}

/** Why a part's ends must stay as they are: a wire on it is fitted. */
export function fittedWire(plan: Plan, id: Id): string | null {
  const theirs = plan.parts[id]?.owner === 'vehicle';
  if (theirs) return 'That part is the vehicle’s own: it stays as it is.';
  const fitted = wiresOfPart(plan, id).some((w) => w.fitted) || plan.parts[id]?.fitted === true;
  return fitted ? 'That part or a wire on it is fitted. Take the mark “fitted” off before you change it.' : null;
}

/**
 * Which terminal of the new kind takes the place of which: same name first, then same role, way of power and form, then
 * same role and way. Only terminals with wires need a place, and none is given twice.
 */
export function matchTerminals(used: readonly TerminalDef[], offered: readonly TerminalDef[]): Readonly<Record<string, string>> {
  const to: Record<string, string> = {};
  const taken = new Set<string>();
  const rounds: readonly ((a: TerminalDef, b: TerminalDef) => boolean)[] = [
    (a, b) => a.id === b.id && a.role === b.role,
    (a, b) => a.role === b.role && a.flow === b.flow && a.form === b.form,
    (a, b) => a.role === b.role && a.flow === b.flow,
  ];
  for (const fits of rounds)
    for (const was of used) {
      if (to[was.id] !== undefined) continue;
      const found = offered.find((t) => !taken.has(t.id) && fits(was, t));
      if (!found) continue;
      to[was.id] = found.id;
      taken.add(found.id);
    }
  return to;
}

/** What it would mean to put this kind in the part's place. Settings that both kinds know alike stay. */
export function exchange(plan: Plan, part: Part, kindName: string): Exchange {
  const kind = partKind(kindName);
  const had = partKind(part.kind);
  const same = (key: string): boolean => {
    const [a, b] = [had.settings.find((s) => s.key === key), kind.settings.find((s) => s.key === key)];
    return a !== undefined && b !== undefined && JSON.stringify(limitsOf(a)) === JSON.stringify(limitsOf(b));
  };
  const settings = Object.fromEntries(Object.entries(part.settings).filter(([key]) => same(key)));
  const wires = wiresOfPart(plan, part.id);
  const ends = new Set(wires.flatMap((w) => [w.from, w.to]).flatMap((e) => (e.part === part.id ? [e.terminal] : [])));
  const to = matchTerminals(
    terminalsOf(part).filter((t) => ends.has(t.id)),
    kind.terminals(settingsOf(kind, settings)),
  );
  const stays = (w: Wire): boolean => [w.from, w.to].every((e) => e.part !== part.id || to[e.terminal] !== undefined);
  return { kind, settings, to, kept: wires.filter(stays), lost: wires.filter((w) => !stays(w)) };
}

/** What a value must keep to, without its words. */
function limitsOf(setting: PartKind['settings'][number]): unknown {
  const { type } = setting;
  if (type === 'number') return [type, setting.unit, setting.min, setting.max];
  return type === 'choice' ? [type, setting.options.map((o) => o.value)] : [type];
}

/** Kinds that may take a part's place, those that keep most wires first. */
export function exchanges(plan: Plan, part: Part): readonly Exchange[] {
  return [...partKinds.values()]
    .filter((k) => k.kind !== part.kind && (k.owner ?? 'build') === part.owner)
    .map((k) => exchange(plan, part, k.kind))
    .sort(
      (a, b) =>
        a.lost.length - b.lost.length ||
        Number(b.kind.group === partKind(part.kind).group) - Number(a.kind.group === partKind(part.kind).group) ||
        a.kind.title.localeCompare(b.kind.title),
    );
}
