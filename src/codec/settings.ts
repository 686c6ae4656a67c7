import { z } from 'zod';
import { settingsOf } from '../parts/definePart.ts';
import type { PartKind, Setting } from '../parts/types.ts';

/** Schema of one setting, built from its descriptor: type, limits, and for the JSON Schema its words and default. */
function settingSchema(setting: Setting): z.ZodType {
  const meta = {
    title: setting.label,
    description: [setting.help, `Default from: ${setting.basis}.`, setting.automatic ? 'Leave out to have it chosen.' : undefined].filter(Boolean).join(' '),
    default: setting.default,
  };
  switch (setting.type) {
    case 'number': {
      let schema = z.number();
      if (Number.isFinite(setting.min)) schema = schema.min(setting.min);
      if (Number.isFinite(setting.max)) schema = schema.max(setting.max);
      return schema.meta({
        ...meta,
        ...(setting.unit === '' ? {} : { 'x-unit': setting.unit }),
        ...(setting.stocked ? { examples: [...setting.stocked] } : {}),
      });
    }
    case 'choice':
      return z.literal(setting.options.map((o) => o.value)).meta({ ...meta, 'x-labels': Object.fromEntries(setting.options.map((o) => [o.value, o.label])) });
    case 'flag':
      return z.boolean().meta(meta);
    case 'text':
      return z.string().max(setting.maxLength).meta(meta);
  }
}

/** Schema of a kind's typed settings: each may be absent (default or automatic), none may be unknown. */
export function settingsSchema(kind: PartKind) {
  return z.strictObject(Object.fromEntries(kind.settings.map((s) => [s.key, settingSchema(s).exactOptional()])));
}

/** The kind's terminals with its default settings, for the JSON Schema. */
export function terminalNotes(kind: PartKind) {
  return kind.terminals(settingsOf(kind, {})).map(({ id, title, form, role, required }) => ({ id, title, form, role, ...(required ? { required } : {}) }));
}
