import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { Icon } from './Icon.tsx';

export interface TypedFieldProps {
  readonly label: string;
  /** Name for the screen reader where the label alone is too short. */
  readonly name?: string;
  /** The label as a trade term with its meaning. */
  readonly term?: ReactNode;
  /** The value as text, typed or automatic. */
  readonly shown: string;
  /** True while nobody has typed a value. */
  readonly automatic: boolean;
  /** Why the automatic value is what it is, or where the default comes from. */
  readonly reason?: ReactNode;
  /** Show the reason only while the field is in use. */
  readonly quiet?: boolean;
  readonly locked?: boolean;
  readonly suggestions?: readonly string[];
  /** Take the text; a string is the reason why it cannot be taken. */
  commit(text: string): string | null;
  /** Back to automatic; absent where nothing can be freed. */
  free?(): void;
}

/** One value that is automatic until somebody types it. Typing fixes it, one click frees it, Escape gives up. */
export function TypedField(p: TypedFieldProps) {
  const id = useId();
  const name = p.name ?? p.label;
  const [draft, setDraft] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const given = useRef(false);

  // Another value from outside (undo, other selection) drops what was half typed.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the shown value is the trigger
  useEffect(() => {
    setDraft(null);
    setWrong(null);
  }, [p.shown, p.automatic]);

  const take = () => {
    if (draft === null || given.current) {
      given.current = false;
      return;
    }
    if (draft.trim() === p.shown.trim()) {
      setDraft(null);
      setWrong(null);
      return;
    }
    if (draft.trim() === '' && p.free) {
      p.free();
      setDraft(null);
      setWrong(null);
      return;
    }
    const reason = p.commit(draft);
    setWrong(reason);
    if (reason === null) setDraft(null);
  };

  const note = wrong ?? p.reason;
  return (
    <div className="field">
      {p.term ? <span className="label">{p.term}</span> : <label htmlFor={id}>{p.label}</label>}
      <span className="with-free">
        <input
          id={id}
          className={p.automatic && draft === null ? 'input automatic' : 'input'}
          aria-label={name}
          value={draft ?? p.shown}
          disabled={p.locked ?? false}
          autoComplete="off"
          spellCheck={false}
          {...(p.suggestions ? { list: `${id}-list` } : {})}
          {...(wrong !== null ? { 'aria-invalid': true } : {})}
          {...(note ? { 'aria-describedby': `${id}-note` } : {})}
          onFocus={(e) => e.currentTarget.select()}
          onChange={(e) => setDraft(e.currentTarget.value)}
          onBlur={take}
          onKeyDown={(e) => {
            if (e.key === 'Enter') take();
            if (e.key === 'Escape' && draft !== null) {
              e.stopPropagation();
              given.current = true;
              setDraft(null);
              setWrong(null);
              e.currentTarget.blur();
              given.current = false;
            }
          }}
        />
        {p.free && !p.automatic ? (
          <button type="button" className="btn quiet icon" title="Back to automatic" aria-label={`${name}: back to automatic`} onClick={p.free}>
            <Icon name="free" size={16} />
          </button>
        ) : null}
      </span>
      {p.suggestions ? (
        <datalist id={`${id}-list`}>
          {p.suggestions.map((s) => (
            <option key={s} value={s} />
          ))}
        </datalist>
      ) : null}
      {note ? (
        <p id={`${id}-note`} className={wrong !== null ? 'note wrong' : p.quiet ? 'note in-use' : 'note'} {...(wrong !== null ? { role: 'alert' } : {})}>
          {note}
        </p>
      ) : null}
    </div>
  );
}
