import { Term } from './Term.tsx';
import { termsIn } from './termsIn.ts';

/** Running text in which every trade term opens its meaning where it first stands. */
export function TermText({ text }: { readonly text: string }) {
  let at = 0;
  return (
    <>
      {termsIn(text).map((piece) => {
        const key = at;
        at += piece.text.length;
        // The words come from the table of meanings itself, so that each has one.
        return piece.word === null ? piece.text : <Term key={key} word={piece.word} shown={piece.text} />;
      })}
    </>
  );
}
