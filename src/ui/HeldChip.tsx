import { partName } from '../ledger/lookup.ts';
import { useApp } from '../state/store.ts';

/** While buttons are held down: which, and the way to let go; every figure on screen is of that moment. */
export function HeldChip() {
  const plan = useApp((s) => s.plan);
  const pressed = useApp((s) => s.pressed);
  const letGo = useApp((s) => s.letGo);
  if (!plan || pressed.length === 0) return null;
  return (
    <div className="plan-chip held-chip">
      <span>
        <b>{pressed.map((id) => partName(plan, id)).join(', ')}</b> held down: the figures are of this moment.
      </span>
      <button type="button" className="btn" onClick={letGo}>
        Let go
      </button>
    </div>
  );
}
