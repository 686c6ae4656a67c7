import type { ReactNode } from 'react';

/** A titled stretch of a face, foldable by its native disclosure when `folded` is given. */
export function Section({
  title,
  children,
  folded,
  aside,
}: {
  readonly title: string;
  readonly children: ReactNode;
  readonly folded?: boolean;
  readonly aside?: ReactNode;
}) {
  if (folded !== undefined)
    return (
      <details className="section" open={!folded}>
        <summary>
          <h3>{title}</h3>
          {aside}
        </summary>
        {children}
      </details>
    );
  return (
    <section className="section">
      <header>
        <h3>{title}</h3>
        {aside}
      </header>
      {children}
    </section>
  );
}
