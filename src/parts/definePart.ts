import type { Value, Values } from '../plan/types.ts';
import type { PartKind, Setting, Settings } from './types.ts';

/**
 * Checks a part kind when its module loads, so that a slip in a part file fails at once and by name.
 * @throws Error naming the kind and the slip (programmer misuse only).
 */
export function definePart(kind: PartKind): PartKind {
  const bad = (why: string): never => {
    throw new Error(`part kind "${kind.kind}": ${why}`);
  };
  if (!/^[a-z][a-z0-9-]*$/.test(kind.kind)) bad('kind is not a plain-lower-case-name');
  const keys = new Set<string>();
  for (const setting of kind.settings) {
    if (keys.has(setting.key)) bad(`setting "${setting.key}" stands twice`);
    keys.add(setting.key);
    if (setting.basis.trim() === '') bad(`setting "${setting.key}" has no basis`);
    if (setting.type === 'number' && !(setting.min <= setting.default && setting.default <= setting.max))
      bad(`default of "${setting.key}" is outside its limits`);
    if (setting.type === 'choice' && !setting.options.some((o) => o.value === setting.default)) bad(`default of "${setting.key}" is not an option`);
  }
  const settings = settingsOf(kind, {});
  const terminals = kind.terminals(settings);
  const ids = new Set(terminals.map((t) => t.id));
  if (ids.size !== terminals.length) bad('two terminals share an id');
  const pads = kind.symbol(settings, terminals).pads;
  for (const t of terminals) if (!pads[t.id]) bad(`terminal "${t.id}" has no pad on the symbol`);
  return kind;
}

/** Typed values over the kind's defaults. Values of the wrong type fall back to the default; the codec reports them. */
export function settingsOf(kind: PartKind, typed: Values): Settings {
  const byKey = byKeyOf(kind);
  const read = (key: string): Value => {
    const setting = byKey.get(key);
    if (!setting) throw new Error(`part kind "${kind.kind}" has no setting "${key}"`);
    const value = typed[key];
    return value !== undefined && typeof value === typeof setting.default ? value : setting.default;
  };
  return {
    num: (key) => read(key) as number,
    str: (key) => read(key) as string,
    flag: (key) => read(key) as boolean,
    typed: (key) => typed[key] !== undefined,
    values: typed,
  };
}

const cache = new WeakMap<PartKind, ReadonlyMap<string, Setting>>();
function byKeyOf(kind: PartKind): ReadonlyMap<string, Setting> {
  let map = cache.get(kind);
  if (!map) {
    map = new Map(kind.settings.map((s) => [s.key, s]));
    cache.set(kind, map);
  }
  return map;
}
