import { type ReactNode, useState } from 'react';
import type { Known, ZoneKind } from '../plan/types.ts';
import { app } from '../state/store.ts';
import { parseAmount } from '../trade/preferred.ts';
import { type Answers, LEADS, NO_ANSWERS, planFrom, SMALL_BATTERY_AH, WISHES } from './answers.ts';
import { showGuide } from './guided/shown.ts';

const PLACES: readonly { readonly value: ZoneKind; readonly label: string }[] = [
  { value: 'dash', label: 'Behind the dash' },
  { value: 'dash-top', label: 'On the dash' },
  { value: 'console', label: 'Centre console' },
  { value: 'under-seat', label: 'Under a seat' },
  { value: 'desk', label: 'A desk in the back' },
  { value: 'load-bay', label: 'Boot or load bay' },
  { value: 'roof', label: 'Roof lining' },
];
const UNKNOWN = 'I don’t know: assume the worst';

/** Five questions, each with a way out, that make an empty plan with the vehicle in it. */
export default function Questions({ onBack }: { onBack(): void }) {
  const [a, setA] = useState<Answers>(NO_ANSWERS);
  const [ah, setAh] = useState('');
  const [wrong, setWrong] = useState(false);
  const set = (patch: Partial<Answers>) => setA((was) => ({ ...was, ...patch }));

  return (
    <main className="start">
      <button type="button" className="link" onClick={onBack}>
        ‹ Back
      </button>
      <h1>Plan mine</h1>
      <form
        className="questions"
        onSubmit={(e) => {
          e.preventDefault();
          const batteryAh = ah.trim() === '' ? null : parseAmount(ah, 'Ah');
          if (ah.trim() !== '' && (batteryAh === null || batteryAh < 1 || batteryAh > 1000)) {
            setWrong(true);
            return;
          }
          const plan = planFrom({ ...a, batteryAh });
          showGuide(plan.id, true);
          app.getState().load(plan);
        }}
      >
        <label className="question-name">
          What do you call it?
          <input className="input" placeholder="My plan" maxLength={80} value={a.title} onChange={(e) => set({ title: e.currentTarget.value })} />
        </label>

        <Question
          title="1. Which battery system, and how large?"
          unknown={
            a.systemV === 'unknown'
              ? 'Planned as 12 V, where currents are largest. Before you connect anything, measure: about 12.6 V or about 25.2 V at rest.'
              : null
          }
        >
          <Choices
            name="system"
            value={String(a.systemV)}
            options={[
              { value: '12', label: '12 V' },
              { value: '24', label: '24 V' },
              { value: 'unknown', label: UNKNOWN },
            ]}
            onPick={(v) => set({ systemV: v === 'unknown' ? v : v === '24' ? 24 : 12 })}
          />
          <label className="inline">
            Battery
            <input
              className="input short"
              inputMode="decimal"
              placeholder="Ah"
              aria-describedby="ah-note"
              aria-invalid={wrong}
              value={ah}
              onChange={(e) => {
                setAh(e.currentTarget.value);
                setWrong(false);
              }}
            />
            Ah
          </label>
          <p id="ah-note" className={wrong ? 'note wrong' : 'note'}>
            {wrong
              ? 'A battery size is a figure between 1 and 1000 Ah, as printed on its label.'
              : `Printed on its label. Left empty: planned as ${SMALL_BATTERY_AH} Ah, so parked days come out short.`}
          </p>
        </Question>

        <Question
          title="2. Where does the computer go?"
          unknown={
            a.computerAt === 'unknown' ? 'Planned on the dash, the hottest place in a cab: wires and fuses come out larger than they may need to be.' : null
          }
        >
          <Choices
            name="computer"
            value={a.computerAt}
            options={[...PLACES, { value: 'unknown', label: UNKNOWN }]}
            onPick={(v) => set({ computerAt: v as Answers['computerAt'] })}
          />
        </Question>

        <Question
          title="3. Where does the display go, and what else is there?"
          unknown={a.displayAt === 'unknown' ? 'Planned on the dash, the hottest place, with a longer lead than it may need.' : null}
        >
          <Choices
            name="display"
            value={a.displayAt}
            options={[...PLACES, { value: 'unknown', label: UNKNOWN }]}
            onPick={(v) => set({ displayAt: v as Answers['displayAt'] })}
          />
          <p>What is to be in the build? The guide asks for what is ticked.</p>
          <div className="leads">
            {WISHES.map((w) => (
              <label key={w.wish} className="check">
                <input
                  type="checkbox"
                  checked={!a.without.includes(w.wish)}
                  onChange={(e) => set({ without: e.currentTarget.checked ? a.without.filter((x) => x !== w.wish) : [...a.without, w.wish] })}
                />
                {w.title}
              </label>
            ))}
          </div>
        </Question>

        <Question
          title="4. What happens when the engine starts?"
          unknown={
            a.stopStart === 'unknown' || a.throughStart === 'unknown'
              ? 'Planned for an engine that restarts by itself and a computer that must live through the deep dip: a supply for that costs more.'
              : null
          }
        >
          <p>Does the engine stop and restart by itself, at lights for example?</p>
          <Choices name="stop-start" value={a.stopStart} options={yesNo} onPick={(v) => set({ stopStart: v as Known })} />
          <p>Must the computer keep running while the starter turns?</p>
          <Choices
            name="through"
            value={a.throughStart}
            options={[
              { value: 'yes', label: 'Yes, without a break' },
              { value: 'no', label: 'No, it may start again' },
              { value: 'unknown', label: UNKNOWN },
            ]}
            onPick={(v) => set({ throughStart: v as Known })}
          />
        </Question>

        <Question
          title="5. Which leads have you found?"
          unknown={
            a.leads.length === 0
              ? 'None yet: the plan starts with the battery alone. Find and measure a lead before you wire anything to it; never measure one in a yellow or orange cover.'
              : null
          }
        >
          <div className="leads">
            {LEADS.map((l) => (
              <label key={l.line} className="check">
                <input
                  type="checkbox"
                  checked={a.leads.includes(l.line)}
                  onChange={(e) => set({ leads: e.currentTarget.checked ? [...a.leads, l.line] : a.leads.filter((x) => x !== l.line) })}
                />
                {l.title}
              </label>
            ))}
          </div>
        </Question>

        <div className="row">
          <button type="submit" className="btn main large">
            Make the plan
          </button>
          <span className="note">Every answer can be changed later under “Vehicle”.</span>
        </div>
      </form>
    </main>
  );
}

const yesNo = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
  { value: 'unknown', label: UNKNOWN },
];

function Question({ title, unknown, children }: { readonly title: string; readonly unknown: string | null; readonly children: ReactNode }) {
  return (
    <fieldset className="question">
      <legend>{title}</legend>
      {children}
      {unknown ? <p className="note consequence">{unknown}</p> : null}
    </fieldset>
  );
}

function Choices({
  name,
  value,
  options,
  onPick,
}: {
  readonly name: string;
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  onPick(value: string): void;
}) {
  return (
    <div className="pills">
      {options.map((o) => (
        <label key={o.value}>
          <input type="radio" name={name} checked={value === o.value} onChange={() => onPick(o.value)} />
          {o.label}
        </label>
      ))}
    </div>
  );
}
