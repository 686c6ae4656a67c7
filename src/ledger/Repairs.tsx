import { useState } from 'react';
import type { OfferedRepair } from '../advise/index.ts';
import type { Plan } from '../plan/types.ts';
import type { Finding } from '../rules/types.ts';
import { useApp } from '../state/store.ts';
import { change } from './actions.ts';
import { describeEdit } from './describe.ts';
import { EffectLines } from './EffectLines.tsx';
import { mendThemAll, useKindForAll, useRepairs } from './useRepairs.ts';

/** Lines of a preview that are shown without being asked for. */
const FEW_LINES = 3;

/** The button that asked is gone: the focus goes to the question, where a key held down answers nothing. */
const focusOn = (box: HTMLElement | null): void => box?.focus();

/** What mends a finding, and what mends all of its card. */
export function Repairs({ finding, all }: { readonly finding: Finding; readonly all: readonly Finding[] }) {
  const plan = useApp((s) => s.plan);
  const current = useApp((s) => s.resultsFor === s.plan);
  const offers = useRepairs(finding);
  const kind = useKindForAll(all);
  if (!plan || offers.length === 0) return null;
  const like = offers.find((o) => o.safe && o.title.startsWith(`${kind} `));
  return (
    <>
      <ul className="repairs">
        {offers.map((offer) => (
          <li key={offer.title}>
            <Repair offer={offer} plan={plan} current={current} />
          </li>
        ))}
      </ul>
      {kind !== null && like ? <MendAll all={all} kind={kind} like={like.title} current={current} /> : null}
    </>
  );
}

/** The same kind of repair for every subject of the card, as one entry of undo. */
function MendAll({
  all,
  kind,
  like,
  current,
}: {
  readonly all: readonly Finding[];
  readonly kind: string;
  /** Title of the repair that the others follow. */
  readonly like: string;
  readonly current: boolean;
}) {
  const [mended, setMended] = useState<number | null>(null);
  return (
    <p className="row">
      <button
        type="button"
        className="btn"
        disabled={!current || mended !== null}
        onClick={() => {
          setMended(0);
          void mendThemAll(all, kind, setMended).finally(() => setMended(null));
        }}
      >
        {mended === null ? `Mend all ${all.length}` : `Mending: ${mended} of ${all.length} …`}
      </button>
      <span className="note">Each like “{like}”; one undo takes all back.</span>
    </p>
  );
}

/** One repair with what it would change. One that changes what the person chose is asked about once more. */
function Repair({ offer, plan, current }: { readonly offer: OfferedRepair; readonly plan: Plan; readonly current: boolean }) {
  const [asking, setAsking] = useState(false);
  const lines = describeEdit(plan, offer.edit);
  if (asking)
    return (
      <div className="asking" tabIndex={-1} ref={focusOn}>
        <p>
          <b>{offer.title}?</b> This changes {offer.fitted.length > 0 ? `what is fitted already (${offer.fitted.join(', ')})` : 'something you chose'}:
        </p>
        <ul className="note">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {offer.effect ? <EffectLines effect={offer.effect} /> : null}
        <div className="row">
          <button type="button" className="btn" disabled={!current} onClick={() => change(offer.edit)}>
            Change it
          </button>
          <button type="button" className="btn quiet" onClick={() => setAsking(false)}>
            Leave it
          </button>
        </div>
      </div>
    );
  return (
    <>
      <button type="button" className="btn" disabled={!current} onClick={() => (offer.safe ? change(offer.edit) : setAsking(true))}>
        {offer.title}
        {offer.safe ? '' : ' …'}
      </button>
      <Preview lines={lines} />
      {offer.effect ? <EffectLines effect={offer.effect} /> : null}
    </>
  );
}

/** What a repair would change: a few lines in full, many behind their count. */
function Preview({ lines }: { readonly lines: readonly string[] }) {
  const list = (
    <ul className="note">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
  if (lines.length <= FEW_LINES) return list;
  return (
    <details className="preview">
      <summary className="note">Changes {lines.length} things</summary>
      {list}
    </details>
  );
}
