import { useMemo, useState } from 'react';
import { type App, useApp } from '../state/store.ts';
import { Box, Found, SearchField } from './Box.tsx';
import { joinEnds } from './commands.ts';
import { type EndRow, endRows, findEnds, otherEnds, refusal } from './joinRows.ts';

/**
 * Draws wires by typing: one terminal, the other, and the next wire; or both in one line, `F1 load > K1 30`. Stays open
 * until Escape.
 */
export function JoinList({ app }: { readonly app: App }) {
  const plan = useApp((s) => s.plan);
  const [chosen] = useState(() => app.getState().selection.parts);
  const [from, setFrom] = useState<EndRow | null>(null);
  const [typed, setTyped] = useState('');
  const [said, setSaid] = useState('');
  const rows = useMemo(() => (plan ? endRows(plan, chosen) : []), [plan, chosen]);
  const [head = '', tail] = from ? ['', typed] : typed.split('>', 2);
  /** Where the wire begins: taken before, or named in the same line. */
  const begun = useMemo(() => from ?? (plan && tail !== undefined ? findEnds(rows, head, plan)[0] : undefined), [from, plan, rows, head, tail]);
  const open = useMemo(() => (plan && begun ? otherEnds(plan, rows, begun.end) : rows), [plan, rows, begun]);
  if (!plan) return null;
  const fitting = begun ? findEnds(open, tail ?? '') : findEnds(open, head, plan);
  const why = begun ? refusal(plan, rows, begun.end, tail ?? '', fitting) : null;
  const found = why === null ? fitting : [];

  const take = (row: EndRow): void => {
    setTyped('');
    setFrom(begun ? null : row);
    setSaid(begun && joinEnds(app, begun.end, row.end) ? `Joined: ${begun.text} to ${row.text}.` : '');
  };
  return (
    <Box
      label={from ? `Wire from ${from.text}` : 'Join terminals'}
      onEscape={
        from
          ? () => {
              setFrom(null);
              setTyped('');
            }
          : undefined
      }
    >
      <h3>{begun ? `${begun.number} ${begun.text} to` : 'A wire from'}</h3>
      <SearchField
        label={from ? 'To which terminal' : 'From which terminal'}
        hint={from ? 'To: part and terminal' : 'From, such as F1 load; or both: F1 load > K1 30'}
        value={typed}
        onType={setTyped}
        onEnter={() => found[0] && take(found[0])}
      />
      <Found rows={found} nothing={why ?? 'No terminal is called so.'} {...(said !== '' && typed === '' ? { said } : {})} onTake={take} />
    </Box>
  );
}
