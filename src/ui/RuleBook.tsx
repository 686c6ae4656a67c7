import { useDeferredValue, useEffect, useId, useRef, useState } from 'react';
import { Icon } from '../faces/Icon.tsx';
import { LEVEL_WORD, LevelMark } from '../faces/LevelMark.tsx';
import { TermText } from '../faces/TermText.tsx';
import { rules } from '../rules/index.ts';
import type { RuleDef } from '../rules/types.ts';
import { type BookEntry, bookEntry, GROUPS, linesOf, matches } from '../sheet/book/index.ts';
import { PrintBook } from './PrintBook.tsx';
import './book.css';

/** Every rule with why, source, a flagged and a clean drawing; searched by word, read here or printed. */
export default function RuleBook({ at, onOpen, onClose }: { readonly at: string; onOpen(rule: string): void; onClose(): void }) {
  const [search, setSearch] = useState('');
  const wanted = useDeferredValue(search);
  const back = useRef<HTMLButtonElement>(null);
  const id = useId();
  const found = rules.filter((rule) => matches(rule, wanted));
  const rule = rules.find((r) => r.id === at);
  useEffect(() => back.current?.focus(), []);

  return (
    <main
      className={rule ? 'book reading' : 'book'}
      aria-label="Rule book"
      onKeyDown={(e) => {
        if (e.key !== 'Escape') return;
        if (search === '') onClose();
        else setSearch('');
      }}
    >
      <header className="sheet-bar">
        <button ref={back} type="button" className="btn" onClick={onClose}>
          ‹ Back to the plan
        </button>
        <h1>Rule book</h1>
        <label className="inline" htmlFor={id}>
          Search
        </label>
        <input id={id} type="search" className="input" placeholder="Search the rules" value={search} onChange={(e) => setSearch(e.currentTarget.value)} />
        <PrintBook rules={found} />
      </header>
      <nav className="book-list" aria-label="Rules">
        <p className="note" role="status">
          {found.length === rules.length ? `${rules.length} rules` : `${found.length} of ${rules.length} rules speak of that`}
        </p>
        {Object.entries(GROUPS).map(([letter, title]) => (
          <Group key={letter} title={title} rules={found.filter((r) => r.code.startsWith(letter))} at={at} onOpen={onOpen} />
        ))}
      </nav>
      <section className="book-page" aria-label="Rule" tabIndex={-1}>
        {rule ? (
          <>
            <button type="button" className="btn quiet book-up" onClick={() => onOpen('')}>
              ‹ All rules
            </button>
            <Page key={rule.id} rule={rule} />
          </>
        ) : (
          <p className="note book-hint">
            Choose a rule to read what it looks at, why it matters and where it comes from. The tool advises: the vehicle maker’s instructions, local rules and
            qualified people come first.
          </p>
        )}
      </section>
    </main>
  );
}

function Group({
  title,
  rules: mine,
  at,
  onOpen,
}: {
  readonly title: string;
  readonly rules: readonly RuleDef[];
  readonly at: string;
  onOpen(rule: string): void;
}) {
  if (mine.length === 0) return null;
  return (
    <section aria-label={title}>
      <h2 className="over">{title}</h2>
      <ul>
        {mine.map((r) => (
          <li key={r.id}>
            <button type="button" className="book-item" aria-current={r.id === at ? 'page' : undefined} onClick={() => onOpen(r.id)}>
              <LevelMark level={r.level} size={14} />
              <span>
                {r.title}
                <span className="hidden-text"> ({LEVEL_WORD[r.level]})</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Page({ rule }: { readonly rule: RuleDef }) {
  const [entry, setEntry] = useState<BookEntry | null>(null);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    let gone = false;
    head.current?.focus();
    // The page of words stands before the drawings are worked out.
    const wait = setTimeout(() => void bookEntry(rule).then((made) => !gone && setEntry(made)), 30);
    return () => {
      gone = true;
      clearTimeout(wait);
    };
  }, [rule]);
  return (
    <article className="book-rule">
      <h2 ref={head} tabIndex={-1}>
        <LevelMark level={rule.level} size={22} />
        <span className={`level-word lvl-${rule.level}`}>{LEVEL_WORD[rule.level]}</span> {rule.title}
      </h2>
      <p>
        <TermText text={rule.why} />
      </p>
      {entry?.flagged && entry.clean ? (
        <>
          <Figure svg={entry.flagged.svg} word="Flagged" text={`${entry.flagged.what} ${entry.flagged.todo}`} />
          <Figure svg={entry.clean.svg} word="In order" text={entry.clean.what} />
        </>
      ) : entry ? null : (
        <p className="note" role="status">
          <Icon name="cycle" size={14} /> Two examples are being drawn …
        </p>
      )}
      <dl>
        {linesOf(entry ?? { rule, flagged: null, clean: null, repairs: [] }).map(([word, text]) => (
          <div key={`${word}${text}`}>
            <dt>{word}</dt>
            <dd>
              <TermText text={text} />
            </dd>
          </div>
        ))}
      </dl>
    </article>
  );
}

function Figure({ svg, word, text }: { readonly svg: string; readonly word: string; readonly text: string }) {
  return (
    <figure>
      <img src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`} alt={`${word}: ${text}`} />
      <figcaption>
        <strong>{word}.</strong> <TermText text={text} />
      </figcaption>
    </figure>
  );
}
