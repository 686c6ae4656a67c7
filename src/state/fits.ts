import { settingsOf } from '../parts/definePart.ts';
import { namedEnd, partKinds } from '../parts/index.ts';
import type { Setting } from '../parts/types.ts';
import { wiresOfPart } from '../plan/connect.ts';
import type { Edit, End, Part, Plan, Value } from '../plan/types.ts';

/**
 * Does what an edit wrote agree with the part kinds? Plan knows no kinds, so this is the door through which no plan
 * passes that its own file reader would refuse.
 * @returns the reason why not, in plain words, or null.
 */
export function misfitOfKinds(plan: Plan, edit: Edit): string | null {
  for (const change of edit.changes) {
    if (change.after === null) continue;
    if (change.table === 'parts') {
      const part = plan.parts[change.id];
      const reason = part ? partMisfit(plan, part, change.before) : null;
      if (reason !== null) return reason;
    }
    if (change.table === 'wires') {
      const wire = plan.wires[change.id];
      const reason = wire ? (endMisfit(plan, wire.from) ?? endMisfit(plan, wire.to)) : null;
      if (reason !== null) return reason;
    }
  }
  return null;
}

function partMisfit(plan: Plan, part: Part, before: Part | null): string | null {
  const kind = partKinds.get(part.kind);
  if (!kind) return `there is no part kind “${part.kind}”`;
  if (before?.settings === part.settings) return null;
  for (const [key, value] of Object.entries(part.settings)) {
    const setting = kind.settings.find((s) => s.key === key);
    const reason = setting ? valueMisfit(setting, value) : `a ${kind.title} has no setting “${key}”`;
    if (reason !== null) return reason;
  }
  if (before === null) return null;
  for (const wire of wiresOfPart(plan, part.id)) {
    for (const end of [wire.from, wire.to]) {
      if (end.part === part.id && endMisfit(plan, end) !== null) return `a wire still ends on ${namedEnd(before, end.terminal)}: remove it first`;
    }
  }
  return null;
}

function valueMisfit(setting: Setting, value: Value): string | null {
  const name = setting.label;
  switch (setting.type) {
    case 'number': {
      if (typeof value !== 'number' || !Number.isFinite(value)) return `${name} needs a number`;
      const unit = setting.unit === '' ? '' : ` ${setting.unit}`;
      if (value > setting.max) return `${name}: ${value}${unit} is above the largest allowed, ${setting.max}${unit}`;
      return value < setting.min ? `${name}: ${value}${unit} is below the smallest allowed, ${setting.min}${unit}` : null;
    }
    case 'choice':
      return setting.options.some((o) => o.value === value) ? null : `${name}: “${value}” is not one of ${setting.options.map((o) => o.label).join(', ')}`;
    case 'flag':
      return typeof value === 'boolean' ? null : `${name} is either yes or no`;
    case 'text':
      return typeof value === 'string' && value.length <= setting.maxLength ? null : `${name} is longer than ${setting.maxLength} characters`;
  }
}

function endMisfit(plan: Plan, end: End): string | null {
  const part = plan.parts[end.part];
  const kind = part ? partKinds.get(part.kind) : undefined;
  if (!part || !kind) return null;
  const found = kind.terminals(settingsOf(kind, part.settings)).some((t) => t.id === end.terminal);
  return found ? null : `${part.name ?? kind.title} has no terminal ${end.terminal}`;
}
