import { amount } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { TypedField } from '../faces/TypedField.tsx';
import type { PartKind, Setting } from '../parts/types.ts';
import { apply, merge } from '../plan/apply.ts';
import { setPart, setSetting, setSettings } from '../plan/edits.ts';
import type { Edit, Id, Part, Plan, Value, Values } from '../plan/types.ts';
import { useApp } from '../state/store.ts';
import { change } from './actions.ts';
import { automaticReason } from './lookup.ts';
import { FlagField, PickField } from './PickField.tsx';
import { parseSetting } from './parse.ts';
import { readyMade, settingsOfReadyMade } from './readyMade.ts';

/** Every setting of a part with unit, default and where that comes from; rare ones under "More". */
export function PartSettings({ part, kind }: { readonly part: Part; readonly kind: PartKind }) {
  const plan = useApp((s) => s.plan);
  const filled = useApp((s) => s.results?.filled.parts[part.id]);
  if (!plan) return null;
  const usual = kind.settings.filter((s) => !s.rare);
  const rare = kind.settings.filter((s) => s.rare);
  const fields = (list: readonly Setting[]) => list.map((s) => <SettingField key={s.key} part={part} setting={s} />);
  return (
    <>
      {kind.settings.length > 0 || kind.variants ? (
        <Section title="Settings" folded={false}>
          {kind.variants ? (
            <PickField
              label="Ready-made"
              value={readyMade(kind, part.settings)?.id ?? ''}
              options={kind.variants.map((v) => ({ value: v.id, label: v.title }))}
              automatic="As set below"
              onPick={(id) => {
                const chosen = kind.variants?.find((v) => v.id === id);
                if (chosen) change(setSettings(plan, part.id, settingsOfReadyMade(kind, chosen)));
              }}
            />
          ) : null}
          {fields(usual)}
          <FlagField
            label="Fitted: this part is in the vehicle as drawn"
            value={part.fitted ?? false}
            reason={part.fitted ? 'Automatic values are frozen as they were fitted.' : undefined}
            onPick={(on) => {
              change(on ? fitted(plan, part.id, filled?.settings ?? part.settings) : setPart(plan, part.id, { fitted: undefined }));
            }}
          />
        </Section>
      ) : null}
      {rare.length > 0 ? (
        <Section title="More settings" folded>
          {fields(rare)}
        </Section>
      ) : null}
    </>
  );
}

/** A fitted part keeps what it was fitted with, also when automatic values would change later. One entry of undo. */
function fitted(plan: Plan, id: Id, settings: Values): Edit {
  const freeze = setSettings(plan, id, settings);
  const frozen = apply(plan, freeze);
  const mark = setPart(frozen.ok ? frozen.plan : plan, id, { fitted: true });
  return frozen.ok ? merge(freeze, mark) : mark;
}

function SettingField({ part, setting }: { readonly part: Part; readonly setting: Setting }) {
  const plan = useApp((s) => s.plan);
  const filled = useApp((s) => s.results?.filled.parts[part.id]?.settings[setting.key]);
  const reason = useApp((s) => s.results?.reasons[`part:${part.id}.${setting.key}`]);
  if (!plan) return null;
  const typed = part.settings[setting.key];
  const free = () => change(setSetting(plan, part.id, setting.key, undefined));
  const set = (value: Value) => change(setSetting(plan, part.id, setting.key, value));
  const chosen = typed === undefined ? automaticReason(reason) : undefined;
  // What anybody may ask once stands there when the field is used; what the tool chose for this plan always does.
  const why = chosen ?? [setting.help, `Usual value from: ${setting.basis}.`].filter((t) => t !== undefined).join(' ');
  const quiet = chosen === undefined;
  const value = typed ?? filled ?? setting.default;

  if (setting.type === 'flag') return <FlagField label={setting.label} value={value === true} reason={why} quiet={quiet} onPick={set} />;
  if (setting.type === 'choice') {
    const usual = setting.options.find((o) => o.value === (filled ?? setting.default))?.label ?? setting.default;
    return (
      <PickField
        label={setting.label}
        value={typeof typed === 'string' ? typed : ''}
        options={setting.options}
        automatic={`${setting.automatic ? 'Automatic' : 'Usual'}: ${usual}`}
        reason={why}
        quiet={quiet}
        onPick={(picked) => (picked === '' ? free() : set(picked))}
      />
    );
  }
  const shown = typeof value === 'number' && setting.type === 'number' ? amount(value, setting.unit) : String(value);
  return (
    <TypedField
      label={setting.label}
      name={setting.label}
      shown={shown}
      automatic={typed === undefined}
      reason={why}
      quiet={quiet}
      {...(setting.type === 'number' && setting.stocked ? { suggestions: setting.stocked.map((v) => amount(v, setting.unit)) } : {})}
      commit={(text) => {
        const parsed = parseSetting(setting, text);
        return parsed.ok ? set(parsed.value) : parsed.reason;
      }}
      free={free}
    />
  );
}
