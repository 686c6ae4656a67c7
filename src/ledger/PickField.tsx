import { type ReactNode, useId } from 'react';

/** Letters of a choice above which a phone held upright has no room for it beside its name. */
const LONG = 16;

/** One of a few values from a list; the empty value is "automatic" where there is one. */
export function PickField({
  label,
  term,
  value,
  options,
  automatic,
  reason,
  quiet,
  onPick,
}: {
  readonly label: string;
  /** The label as a trade term with its meaning. */
  readonly term?: ReactNode;
  /** '' = automatic. */
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  /** What automatic comes to, when there is an automatic choice. */
  readonly automatic?: string;
  readonly reason?: ReactNode;
  /** Show the reason only while the field is in use. */
  readonly quiet?: boolean;
  onPick(value: string): void;
}) {
  const id = useId();
  const isLong = [automatic ?? '', ...options.map((o) => o.label)].some((text) => text.length > LONG);
  return (
    <div className={isLong ? 'field long' : 'field'}>
      {term ? <span className="label">{term}</span> : <label htmlFor={id}>{label}</label>}
      <select
        id={id}
        aria-label={label}
        className={value === '' && automatic !== undefined ? 'input automatic' : 'input'}
        value={value}
        {...(reason ? { 'aria-describedby': `${id}-note` } : {})}
        onChange={(e) => onPick(e.currentTarget.value)}
      >
        {automatic === undefined ? null : <option value="">{automatic}</option>}
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.label}
          </option>
        ))}
      </select>
      {reason ? (
        <p id={`${id}-note`} className={quiet ? 'note in-use' : 'note'}>
          {reason}
        </p>
      ) : null}
    </div>
  );
}

/** Yes or no. */
export function FlagField({
  label,
  value,
  reason,
  quiet,
  onPick,
}: {
  readonly label: string;
  readonly value: boolean;
  readonly reason?: ReactNode;
  /** Show the reason only while the field is in use. */
  readonly quiet?: boolean;
  onPick(value: boolean): void;
}) {
  const id = useId();
  return (
    <div className="field flag">
      <label className="check">
        <input type="checkbox" checked={value} {...(reason ? { 'aria-describedby': `${id}-note` } : {})} onChange={(e) => onPick(e.currentTarget.checked)} />
        {label}
      </label>
      {reason ? (
        <p id={`${id}-note`} className={quiet ? 'note in-use' : 'note'}>
          {reason}
        </p>
      ) : null}
    </div>
  );
}
