import { useId } from 'react';
import type { Scenario } from '../analysis/time/types.ts';
import { Popover } from '../faces/Popover.tsx';
import type { Id, Plan } from '../plan/types.ts';
import { timeText } from '../sheet/timing/words.ts';
import { app } from '../state/store.ts';
import { withDoor, withKeyBack, withoutPress, withPress } from './moments.ts';

/** What happens in this turn of the key: the door, the key coming back, buttons pressed by hand. */
export function StripMenu({
  plan,
  scenario,
  nameOf,
  change,
}: {
  readonly plan: Plan;
  readonly scenario: Scenario;
  nameOf(part: Id): string;
  change(patch: Partial<Scenario>): void;
}) {
  const name = useId();
  const buttons = Object.values(plan.parts).filter((p) => p.kind === 'push-button');
  return (
    <Popover name="What happens in this turn of the key" className="btn" face="Moments …">
      {(close) => (
        <div className="view-menu">
          <fieldset className="view-pick">
            <legend>Driver’s door after key off</legend>
            <div className="choice">
              {[true, false].map((opens) => (
                <label key={String(opens)}>
                  <input type="radio" name={name} checked={(scenario.doorS !== null) === opens} onChange={() => change(withDoor(scenario, opens))} />
                  {opens ? 'opens' : 'stays shut'}
                </label>
              ))}
            </div>
          </fieldset>
          <label className="check">
            <input type="checkbox" checked={scenario.keyBackS !== null} onChange={(e) => change(withKeyBack(scenario, e.currentTarget.checked))} />
            The key comes back
          </label>
          {buttons.length > 0 ? (
            <fieldset className="view-pick">
              <legend>Buttons</legend>
              {buttons.map((b) => (
                <button key={b.id} type="button" className="panel-item" onClick={() => change(withPress(scenario, b.id))}>
                  Press {nameOf(b.id)}
                </button>
              ))}
              {scenario.presses.map((p, i) => (
                <button key={`${p.part}:${p.atS}`} type="button" className="panel-item" onClick={() => change(withoutPress(scenario, i))}>
                  Do not press {nameOf(p.part)} at {timeText(p.atS)}
                </button>
              ))}
            </fieldset>
          ) : null}
          <button
            type="button"
            className="panel-item"
            onClick={() => {
              app.getState().setScenario(null);
              close();
            }}
          >
            Back to the plan’s own moments
          </button>
        </div>
      )}
    </Popover>
  );
}
