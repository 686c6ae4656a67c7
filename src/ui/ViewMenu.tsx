import { type ReactNode, useId } from 'react';
import { Icon } from '../faces/Icon.tsx';
import { Popover } from '../faces/Popover.tsx';
import { openPanel } from '../state/panels.ts';
import { app, useApp } from '../state/store.ts';
import type { AppState } from '../state/types.ts';

const THEMES: readonly { readonly value: AppState['theme']; readonly label: string }[] = [
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
  { value: 'contrast', label: 'Strong' },
  { value: 'contrast-dark', label: 'Strong, dark' },
];

/** Figures on wires, units and theme: how things are shown, none of it part of the plan. */
export function ViewMenu({ small, children }: { readonly small: boolean; readonly children?: ReactNode }) {
  const figures = useApp((s) => s.showFigures);
  const units = useApp((s) => s.units);
  const theme = useApp((s) => s.theme);
  const { setShowFigures, setTheme, setUnits } = app.getState();
  return (
    <Popover
      name="How things are shown"
      className={small ? 'btn quiet icon' : 'btn quiet'}
      face={
        <>
          <Icon name="look" /> {small ? null : 'View'}
        </>
      }
    >
      {(close) => (
        <div className="view-menu">
          {(['find', 'commands'] as const).map((kind) => (
            <button
              key={kind}
              type="button"
              className="panel-item"
              onClick={() => {
                close();
                openPanel({ kind });
              }}
            >
              {kind === 'find' ? 'Find a part or wire …' : 'All commands …'} <kbd>{kind === 'find' ? '/' : '?'}</kbd>
            </button>
          ))}
          {children}
          <label className="check">
            <input type="checkbox" checked={figures} onChange={(e) => setShowFigures(e.currentTarget.checked)} />
            Figures on wires
          </label>
          <Pick
            label="Wire sizes"
            value={units.area}
            options={[
              { value: 'mm2', label: 'mm²' },
              { value: 'awg', label: 'AWG' },
            ]}
            onPick={(area) => setUnits({ ...units, area })}
          />
          <Pick
            label="Lengths"
            value={units.length}
            options={[
              { value: 'm', label: 'metres' },
              { value: 'ft', label: 'feet' },
            ]}
            onPick={(length) => setUnits({ ...units, length })}
          />
          <Pick label="Colours" value={theme} options={THEMES} onPick={setTheme} />
        </div>
      )}
    </Popover>
  );
}

function Pick<T extends string>({
  label,
  value,
  options,
  onPick,
}: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly { readonly value: T; readonly label: string }[];
  onPick(value: T): void;
}) {
  const name = useId();
  return (
    <fieldset className="view-pick">
      <legend>{label}</legend>
      <div className="choice">
        {options.map((o) => (
          <label key={o.value}>
            <input type="radio" name={name} checked={value === o.value} onChange={() => onPick(o.value)} />
            {o.label}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
