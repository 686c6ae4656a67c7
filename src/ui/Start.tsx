import { useRef, useState } from 'react';
import { piece } from '../faces/piece.tsx';
import { openPlan, removePlan } from '../state/page.ts';
import { useApp } from '../state/store.ts';
import type { PlanEntry } from '../state/types.ts';
import { CAUTIONS } from '../trade/cautions.ts';
import { openDemo } from './demo.ts';
import { Mark } from './Mark.tsx';
import { FileInput } from './PlanMenu.tsx';
import { planName } from './planName.ts';

const WAITING = <p className="opening">One moment …</p>;
const Questions = piece('The page of questions', () => import('./Questions.tsx'), WAITING);
const LeadGuide = piece('The page “What is this wire?”', () => import('./LeadGuide.tsx'), WAITING);

/** The first screen: what this is, the doors into it, plans kept here, and the usual cautions. */
export function Start({ asking, setAsking }: { readonly asking: boolean; setAsking(asking: boolean): void }) {
  const [fetching, setFetching] = useState(false);
  const file = useRef<HTMLInputElement>(null);
  const [guide, setGuide] = useState(false);
  if (guide) return <LeadGuide onBack={() => setGuide(false)} />;
  if (asking) return <Questions onBack={() => setAsking(false)} />;
  return (
    <main className="start">
      <header className="start-head">
        <Mark size={44} />
        <h1>Dashloom</h1>
      </header>
      <p className="lead">
        A small computer in a vehicle dash needs more than a plug: a supply that survives the starter, wires and fuses that fit, and a computer that shuts down
        before its power goes. Draw the build here, zone by zone. Every wire tells what it carries at each key position, what protects it and what the parked
        battery loses; at the end you print the sheet to wire and test from. It all stays in your browser.
      </p>
      <div className="doors">
        <button
          type="button"
          className="door main"
          disabled={fetching}
          onClick={() => {
            setFetching(true);
            void openDemo().finally(() => setFetching(false));
          }}
        >
          <b>Try the demo</b>
          <span>A mobile library van, finished: turn its key, make a mistake, see what is said.</span>
        </button>
        <button type="button" className="door" onClick={() => setAsking(true)}>
          <b>Plan mine</b>
          <span>Five questions, each with “I don’t know”, then an empty plan with your vehicle in it.</span>
        </button>
        <button type="button" className="door" onClick={() => setGuide(true)}>
          <b>What is this wire?</b>
          <span>A lead behind the radio, a meter, six readings: what it most likely is, and when to leave it alone.</span>
        </button>
        <button type="button" className="door" onClick={() => file.current?.click()}>
          <b>Open a file</b>
          <span>A plan saved before, on this device or another.</span>
        </button>
        <FileInput ref={file} />
      </div>
      <Kept />
      <section className="cautions" aria-labelledby="cautions-title">
        <h2 id="cautions-title">Before you touch a vehicle</h2>
        <ul>
          {CAUTIONS.map((c) => (
            <li key={c.id}>
              {c.text}
              {c.sign ? <span className="note"> ISO 7010 {c.sign}</span> : null}
            </li>
          ))}
        </ul>
      </section>
    </main>
  );
}

function Kept() {
  const plans = useApp((s) => s.plans);
  const [leaving, setLeaving] = useState<PlanEntry | null>(null);
  const dialog = useRef<HTMLDialogElement>(null);
  if (plans.length === 0) return null;
  return (
    <section className="kept" aria-labelledby="kept-title">
      <h2 id="kept-title">Plans kept in this browser</h2>
      <ul>
        {plans.map((p) => (
          <li key={p.id}>
            <button type="button" className="kept-open" onClick={() => void openPlan(p.id)}>
              <b>{planName(p)}</b>
              <span className="note">changed {new Date(p.changed).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' })}</span>
            </button>
            <button
              type="button"
              className="btn quiet"
              aria-label={`Delete ${planName(p)}`}
              onClick={() => {
                setLeaving(p);
                dialog.current?.showModal();
              }}
            >
              Delete …
            </button>
          </li>
        ))}
      </ul>
      <dialog ref={dialog} aria-labelledby="delete-title">
        <h2 id="delete-title">Delete “{leaving ? planName(leaving) : ''}”?</h2>
        <p>It is removed from this browser for good. A file you saved stays where it is.</p>
        <div className="row">
          <button
            type="button"
            className="btn"
            onClick={() => {
              dialog.current?.close();
              if (leaving) void removePlan(leaving.id);
            }}
          >
            Delete it
          </button>
          <button type="button" className="btn main" onClick={() => dialog.current?.close()}>
            Keep it
          </button>
        </div>
      </dialog>
    </section>
  );
}
