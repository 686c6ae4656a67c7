import { type ComponentType, createContext, lazy, type ReactNode, Suspense, use, useEffect, useRef, useState } from 'react';
import { fetchedCode, missingText } from '../state/missing.ts';
import { useApp } from '../state/store.ts';

export interface MissingProps {
  /** What could not be fetched, as the first words of a sentence. */
  readonly what: string;
  again(): void;
  /** Goes back to where the person came from. */
  readonly leave?: (() => void) | undefined;
}

/** Ways in which a piece is left, by the names they have among its properties. */
interface Leavable {
  onClose?(): void;
  onBack?(): void;
}

const Again = createContext<() => void>(() => undefined);

/**
 * A part of the page whose code is fetched when it is first shown. When it does not come (no network, or another edition
 * of the page stands there by now), `Missing` says so in its place and offers another try; each later showing tries anew.
 * @param what first words of "… could not be fetched"
 * @param waiting stands there until it has come
 */
export function piece<P extends object>(
  what: string,
  load: () => Promise<{ readonly default: ComponentType<P> }>,
  waiting: ReactNode = null,
  Missing: ComponentType<MissingProps> = MissingHere,
): ComponentType<P> {
  const fetched = (): ComponentType<P> => lazy(() => fetchedCode(load).catch(failed));
  const failed = (): { default: ComponentType<P> } => {
    code = fetched();
    return {
      default: (props: P & Leavable) => <Missing what={what} again={use(Again)} leave={props.onClose ?? props.onBack} />,
    };
  };
  let code = fetched();
  return function Piece(props: P) {
    const [Code, setCode] = useState(() => code);
    return (
      <Again value={() => setCode(() => code)}>
        <Suspense fallback={waiting}>
          <Code {...props} />
        </Suspense>
      </Again>
    );
  };
}

/** The message in the place of what is missing. It takes the focus where that was lost with what stood here before. */
function MissingHere({ what, again, leave }: MissingProps) {
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (document.activeElement === document.body) button.current?.focus();
  }, []);
  return (
    <section className="missing" role="alert">
      <p>{missingText(what)}</p>
      <div className="missing-ways">
        <button ref={button} type="button" className="btn main" onClick={again}>
          Try again
        </button>
        <LoadAnew />
        {leave ? (
          <button type="button" className="btn" onClick={leave}>
            Back
          </button>
        ) : null}
      </div>
    </section>
  );
}

/** Brings a newer edition of the page; offered only when nothing is lost by it. */
export function LoadAnew() {
  const isKept = useApp((s) => s.plan === null || s.saved === 'saved');
  return isKept ? (
    <button type="button" className="btn" onClick={() => window.location.reload()}>
      Load the page anew
    </button>
  ) : null;
}
