import { useId } from 'react';
import { LEVEL_WORD, LevelMark } from '../faces/LevelMark.tsx';
import { TermText } from '../faces/TermText.tsx';
import { type Comparison, type Difference, type FoundLine, type Goods, SIGNS } from '../sheet/compare/index.ts';
import { lengthText } from '../sheet/figures.ts';
import { useApp } from '../state/store.ts';

/** Figures, goods, differences and findings of two wirings as tables and lists. */
export function CompareTables({ comparison, titles }: { readonly comparison: Comparison; readonly titles: readonly [string, string] }) {
  const { letters, figures, goods, differences, findings } = comparison;
  return (
    <div className="compare-tables">
      <Block title="Figures">
        <Table head={['', heading(letters.one, titles[0]), heading(letters.other, titles[1])]} label="Figures of both">
          {figures.map((row) => (
            <tr key={row.label} className={row.differs ? 'differs' : undefined}>
              <th scope="row">
                <Sign differs={row.differs} />
                <TermText text={row.label} />
              </th>
              <td>{row.one}</td>
              <td>{row.other}</td>
            </tr>
          ))}
        </Table>
      </Block>
      <Block title="Findings">
        <Findings lines={findings.one} title={`Only in ${letters.one}`} />
        <Findings lines={findings.other} title={`Only in ${letters.other}`} />
        <Findings lines={findings.both} title="In both" />
      </Block>
      <GoodsTable goods={goods} letters={letters} />
      <Block title="Parts and wires that differ">
        {differences.length === 0 ? <p className="note">None: both have the same parts and wires, sized alike.</p> : null}
        <Differences list={differences} where="one" title={`Only in ${letters.one}`} letters={letters} />
        <Differences list={differences} where="other" title={`Only in ${letters.other}`} letters={letters} />
        <Differences list={differences} where="both" title="In both, not alike" letters={letters} />
      </Block>
    </div>
  );
}

function heading(letter: string, title: string): React.ReactNode {
  return (
    <>
      Wiring {letter}
      <span className="note">{title || 'Untitled plan'}</span>
    </>
  );
}

function Block({ title, children }: { readonly title: string; readonly children: React.ReactNode }) {
  const id = useId();
  return (
    <section className="compare-block" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}

function Table({
  head,
  label,
  isWordy = false,
  children,
}: {
  readonly head: readonly React.ReactNode[];
  readonly label: string;
  /** Its rows begin with many words: on a phone they have a line to themselves. */
  readonly isWordy?: boolean;
  readonly children: React.ReactNode;
}) {
  const [first, ...rest] = head;
  return (
    <table aria-label={label} className={isWordy ? 'wordy' : ''}>
      <thead>
        <tr>
          <td>{first}</td>
          {rest.map((cell, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two columns that never change places
            <th key={i} scope="col">
              {cell}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>{children}</tbody>
    </table>
  );
}

/** The sign of what is not alike, also for the ear; room for it where there is none. */
function Sign({ differs }: { readonly differs: boolean }) {
  return (
    <span className="compare-sign">
      {differs ? (
        <>
          <span aria-hidden="true">{SIGNS.both}</span>
          <span className="hidden-text">differs: </span>
        </>
      ) : null}
    </span>
  );
}

function GoodsTable({ goods, letters }: { readonly goods: readonly Goods[]; readonly letters: Comparison['letters'] }) {
  const length = useApp((s) => s.units.length);
  const text = (g: Goods, n: number): string => (n === 0 ? '–' : g.unit === 'pieces' ? String(n) : lengthText(n, length));
  const differing = goods.filter((g) => g.one !== g.other);
  const same = goods.length - differing.length;
  return (
    <Block title="To buy">
      {differing.length === 0 ? null : (
        <Table head={['', `Wiring ${letters.one}`, `Wiring ${letters.other}`]} label="To buy, where it differs" isWordy>
          {differing.map((g) => (
            <tr key={g.what} className="differs">
              <th scope="row">
                <Sign differs />
                {g.what}
              </th>
              <td>{text(g, g.one)}</td>
              <td>{text(g, g.other)}</td>
            </tr>
          ))}
        </Table>
      )}
      <p className="note">
        {differing.length === 0 ? 'The same is bought for both' : `${same} other ${same === 1 ? 'line is' : 'lines are'} the same in both`}; wire in cut
        lengths.
      </p>
    </Block>
  );
}

function Differences({
  list,
  where,
  title,
  letters,
}: {
  readonly list: readonly Difference[];
  readonly where: Difference['where'];
  readonly title: string;
  readonly letters: Comparison['letters'];
}) {
  const mine = list.filter((d) => d.where === where);
  if (mine.length === 0) return null;
  return (
    <>
      <h3>
        <span className="compare-badge" aria-hidden="true">
          {SIGNS[where]}
        </span>
        {title}
      </h3>
      <ul className="compare-list">
        {mine.map((d) => (
          <li key={`${d.table}${d.id}`}>
            {d.name}
            {d.how.map((h) => (
              <span key={h.label} className="compare-how">
                {h.label}: {h.before} in {letters.one}, {h.after} in {letters.other}
              </span>
            ))}
          </li>
        ))}
      </ul>
    </>
  );
}

function Findings({ lines, title }: { readonly lines: readonly FoundLine[]; readonly title: string }) {
  return (
    <>
      <h3>{title}</h3>
      {lines.length === 0 ? <p className="note">No finding.</p> : null}
      <ul className="compare-list">
        {lines.map((line) => (
          <li key={`${line.level}${line.title}`} className="compare-finding">
            <LevelMark level={line.level} size={14} />
            <span>
              <span className="hidden-text">{LEVEL_WORD[line.level]}: </span>
              {line.title}
              <span className="compare-how">{line.at.join(', ')}</span>
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}
