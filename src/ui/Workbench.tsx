import { useEffect, useRef, useState } from 'react';
import { Outline } from '../canvas/Outline.tsx';
import { Surface } from '../canvas/Surface.tsx';
import { ZoneSteps } from '../canvas/ZoneSteps.tsx';
import { Icon } from '../faces/Icon.tsx';
import { piece } from '../faces/piece.tsx';
import { KeySlide } from '../keycycle/KeySlide.tsx';
import { Strip } from '../keycycle/Strip.tsx';
import { Job } from '../ledger/Job.tsx';
import { Ledger } from '../ledger/Ledger.tsx';
import { Shelf } from '../shelf/Shelf.tsx';
import { useAsked } from '../state/panels.ts';
import { app, useApp } from '../state/store.ts';
import { AnswersButton } from './AnswersButton.tsx';
import { showGuide, useGuideShown } from './guided/shown.ts';
import { HeldChip } from './HeldChip.tsx';
import { useHotkeys } from './hotkeys.ts';
import { JobLine } from './JobLine.tsx';
import { SinceChip } from './SinceChip.tsx';
import { TopBar } from './TopBar.tsx';
import { useRoom } from './useRoom.ts';

const SheetView = piece('The wiring sheet', () => import('./SheetView.tsx'), <p className="opening">Opening the wiring sheet …</p>);
const RuleBook = piece('The rule book', () => import('./RuleBook.tsx'), <p className="opening">Opening the rule book …</p>);
const Guided = piece('The guide', () => import('./guided/Guided.tsx'), <p className="note">One moment …</p>);
const GuideStatus = piece(
  'The guide',
  () => import('./guided/GuideStatus.tsx'),
  null,
  ({ again }) => (
    <button type="button" className="btn" onClick={again}>
      The guide did not come: try again
    </button>
  ),
);

/** The open plan: shelf, drawing, answers; on a small screen the drawing with two sheets over it. */
export default function Workbench({ onNew }: { onNew(): void }) {
  const [sheet, setSheet] = useState(false);
  const [shelfOpen, setShelfOpen] = useState(false);
  const [answersOpen, setAnswersOpen] = useState(false);
  const [cycleOpen, setCycleOpen] = useState(false);
  const [jobOpen, setJobOpen] = useState(false);
  const [jobAsked, setJobAsked] = useState(0);
  const [guideAsked, setGuideAsked] = useState(0);
  const [guideOpen, setGuideOpen] = useState(false);
  const planId = useApp((s) => s.plan?.id);
  const guideShown = useGuideShown(planId);
  const layout = useRoom();
  const wide = layout === 'wide';
  const phone = layout === 'phone';
  // Where there is room, and a computer whose story it tells, the key cycle stands open until somebody folds it.
  const [stripOpen, setStripOpen] = useState(() => wide && window.innerHeight >= 700 && hasComputer());
  const answers = useRef<HTMLElement>(null);
  useHotkeys();

  // Something taken from the shelf: the drawer gives the drawing back.
  const placing = useApp((s) => s.placing !== null);
  useEffect(() => {
    if (placing) setShelfOpen(false);
  }, [placing]);

  useEffect(
    () =>
      useAsked.subscribe((now, before) => {
        if (now.shelf > before.shelf && !wide) setShelfOpen(true);
        if (now.sheet > before.sheet) setSheet(true);
        if (now.answers === before.answers) return;
        if (phone) setAnswersOpen(true);
        else answers.current?.focus();
      }),
    [wide, phone],
  );

  const book = useApp((s) => s.book);
  const { setBook } = app.getState();
  if (book !== null) return <RuleBook at={book} onOpen={setBook} onClose={() => setBook(null)} />;

  if (sheet) return <SheetView onClose={() => setSheet(false)} />;

  const askGuide = (): void => {
    if (planId !== undefined) showGuide(planId, true);
    setGuideAsked((n) => n + 1);
    setJobOpen(false);
    setGuideOpen(phone);
  };
  const guide = guideShown ? (
    <Guided
      onShown={() => setGuideOpen(false)}
      onSheet={() => setSheet(true)}
      onJob={() => {
        setJobAsked((n) => n + 1);
        setGuideOpen(false);
        setJobOpen(phone);
      }}
      onHide={() => {
        if (planId !== undefined) showGuide(planId, false);
        setGuideOpen(false);
      }}
    />
  ) : null;
  const comeGuide = guideShown ? undefined : askGuide;

  return (
    <div className={`bench ${layout}`}>
      {phone ? null : (
        <a className="skip" href="#answers">
          To the answers
        </a>
      )}
      <div className="bench-head">
        <TopBar phone={phone} onNew={onNew} onSheet={() => setSheet(true)} {...(wide || phone ? {} : { onShelf: () => setShelfOpen(!shelfOpen) })} />
        {phone ? null : <JobLine onOpen={() => setJobAsked((n) => n + 1)} onGuide={comeGuide} />}
      </div>
      {wide ? (
        <aside className="bench-shelf">
          <Shelf />
        </aside>
      ) : null}
      <main className="bench-plan" aria-label="Plan">
        <Surface />
        <Outline />
        <ZoneSteps />
        <HeldChip />
        <SinceChip />
      </main>
      {phone ? null : (
        <div className="bench-strip">
          <Strip open={stripOpen} onToggle={() => setStripOpen(!stripOpen)} />
        </div>
      )}
      {phone ? (
        <section className="bench-foot" aria-label="Key and answers">
          {guideShown ? (
            <GuideStatus
              open={guideOpen}
              onOpen={() => {
                setGuideOpen(!guideOpen);
                setCycleOpen(false);
                setJobOpen(false);
                setAnswersOpen(false);
              }}
            />
          ) : null}
          <KeySlide />
          <div className="foot-buttons">
            <button type="button" className="btn" aria-expanded={shelfOpen} onClick={() => setShelfOpen(!shelfOpen)}>
              <Icon name="shelf" /> Parts
            </button>
            <button
              type="button"
              className={cycleOpen ? 'btn icon on' : 'btn icon'}
              title="Key cycle"
              aria-label="Key cycle"
              aria-expanded={cycleOpen}
              onClick={() => {
                setCycleOpen(!cycleOpen);
                setGuideOpen(false);
                setAnswersOpen(false);
                setJobOpen(false);
              }}
            >
              <Icon name="cycle" />
            </button>
            <button
              type="button"
              className={jobOpen ? 'btn icon on' : 'btn icon'}
              title="Job"
              aria-label="Job"
              aria-expanded={jobOpen}
              onClick={() => {
                setJobOpen(!jobOpen);
                setGuideOpen(false);
                setCycleOpen(false);
                setAnswersOpen(false);
              }}
            >
              <Icon name="job" />
            </button>
            <AnswersButton
              open={answersOpen}
              onToggle={() => {
                setAnswersOpen(!answersOpen);
                setGuideOpen(false);
                setCycleOpen(false);
                setJobOpen(false);
              }}
            />
          </div>
        </section>
      ) : (
        <aside
          ref={answers}
          className="bench-answers"
          id="answers"
          tabIndex={-1}
          aria-label="Answers"
          onKeyDown={(e) => {
            if (e.key === 'Escape' && !e.defaultPrevented) backToDrawing(e.target);
          }}
        >
          <Ledger jobAsked={jobAsked} guideAsked={guideAsked} guide={guide} />
          {guideShown ? <GuideStatus open={false} /> : null}
        </aside>
      )}
      {shelfOpen && !wide ? (
        <Drawer side="left" label="Parts" onClose={() => setShelfOpen(false)}>
          <Shelf onTaken={() => setShelfOpen(false)} />
        </Drawer>
      ) : null}
      {cycleOpen && phone ? (
        <Drawer side="bottom" label="Key cycle" onClose={() => setCycleOpen(false)}>
          <div className="drawer-scroll">
            <Strip open />
          </div>
        </Drawer>
      ) : null}
      {jobOpen && phone ? (
        <Drawer side="bottom" label="Job" onClose={() => setJobOpen(false)}>
          <JobLine onOpen={() => undefined} onGuide={comeGuide} />
          <div className="drawer-scroll">
            <Job onShown={() => setJobOpen(false)} />
          </div>
        </Drawer>
      ) : null}
      {guideOpen && phone && guide ? (
        <Drawer side="bottom" label="Guide" onClose={() => setGuideOpen(false)}>
          <div className="drawer-scroll">{guide}</div>
        </Drawer>
      ) : null}
      {answersOpen && phone ? (
        <Drawer side="bottom" label="Answers" onClose={() => setAnswersOpen(false)}>
          <div id="answers" tabIndex={-1} className="drawer-fill">
            <Ledger />
          </div>
        </Drawer>
      ) : null}
    </div>
  );
}

/** Gives bare keys back to the drawing; a field or an open explanation keeps its own use for Escape. */
function backToDrawing(target: EventTarget): void {
  if (!(target instanceof HTMLElement) || target.closest('input:not([type=radio],[type=checkbox]), textarea, select')) return;
  if (document.querySelector(':popover-open') === null) target.blur();
}

function hasComputer(): boolean {
  return Object.values(app.getState().plan?.parts ?? {}).some((p) => p.kind === 'computer');
}

function Drawer({
  side,
  label,
  onClose,
  children,
}: {
  readonly side: 'left' | 'bottom';
  readonly label: string;
  onClose(): void;
  readonly children: React.ReactNode;
}) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const opener = document.activeElement;
    // Its inside may have taken the focus already: a search field that was asked for.
    if (!box.current?.contains(opener)) box.current?.focus();
    return () => {
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus();
    };
  }, []);
  return (
    <div
      ref={box}
      className={`drawer ${side}`}
      role="dialog"
      aria-label={label}
      tabIndex={-1}
      onKeyDown={(e) => {
        if (e.key === 'Escape' && !e.defaultPrevented) onClose();
      }}
    >
      <button type="button" className="btn quiet icon drawer-close" aria-label={`Close ${label.toLowerCase()}`} onClick={onClose}>
        <Icon name="close" />
      </button>
      {children}
    </div>
  );
}
