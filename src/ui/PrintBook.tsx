import { useEffect, useRef, useState } from 'react';
import { today } from '../faces/today.ts';
import type { RuleDef } from '../rules/types.ts';
import { type BookEntry, bookEntry, bookHtml } from '../sheet/book/index.ts';

/** Draws the examples of all rules that are listed, one after another, then hands the book to the printer. */
export function PrintBook({ rules }: { readonly rules: readonly RuleDef[] }) {
  const [done, setDone] = useState<number | null>(null);
  const [book, setBook] = useState<{ readonly html: string; readonly n: number } | null>(null);
  const frame = useRef<HTMLIFrameElement>(null);
  const stopped = useRef(false);
  useEffect(() => {
    stopped.current = false;
    return () => {
      stopped.current = true;
    };
  }, []);

  const make = async () => {
    stopped.current = false;
    const entries: BookEntry[] = [];
    for (const [i, rule] of rules.entries()) {
      setDone(i);
      // The page stays alive between two rules.
      await new Promise((resume) => setTimeout(resume));
      if (stopped.current) {
        setDone(null);
        return;
      }
      entries.push(await bookEntry(rule, 2 * i + 1));
    }
    setBook((last) => ({ html: bookHtml(entries, 'A4', today()), n: (last?.n ?? 0) + 1 }));
    setDone(null);
  };

  if (done !== null)
    return (
      <span className="sheet-actions">
        <progress max={rules.length} value={done} aria-label="Examples drawn" />
        <span className="note">
          {done} of {rules.length}
        </span>
        <button
          type="button"
          className="btn"
          onClick={() => {
            stopped.current = true;
          }}
        >
          Stop
        </button>
      </span>
    );
  return (
    <span className="sheet-actions">
      <button type="button" className="btn main" disabled={rules.length === 0} onClick={() => void make()}>
        Print …
      </button>
      {book ? (
        <iframe
          key={book.n}
          ref={frame}
          className="book-print"
          title="Rule book as it will print"
          sandbox="allow-same-origin allow-modals"
          srcDoc={book.html}
          onLoad={() => frame.current?.contentWindow?.print()}
        />
      ) : null}
    </span>
  );
}
