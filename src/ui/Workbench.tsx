import { useEffect, useRef, useState } from 'react';
import { Outline } from '../canvas/Outline.tsx';
import { Surface } from '../canvas/Surface.tsx';
import { ZoneSteps } from '../canvas/ZoneSteps.tsx';
import { piece } from '../faces/piece.tsx';
import { Strip } from '../keycycle/Strip.tsx';
import { Job } from '../ledger/Job.tsx';
import { Ledger } from '../ledger/Ledger.tsx';
import { Shelf } from '../shelf/Shelf.tsx';
import { useAsked } from '../state/panels.ts';
import { app, useApp } from '../state/store.ts';
import { Drawer } from './Drawer.tsx';
import { showGuide, useGuideShown } from './guided/shown.ts';
import { HeldChip } from './HeldChip.tsx';
import { useHotkeys } from './hotkeys.ts';
import { JobLine } from './JobLine.tsx';
import { GuideStatus, PhoneFoot, type Slide } from './PhoneFoot.tsx';
import { PlacingChip } from './PlacingChip.tsx';
import { SinceChip } from './SinceChip.tsx';
import { TopBar } from './TopBar.tsx';
import { useRoom } from './useRoom.ts';

const SheetView = piece('The wiring sheet', () => import('./SheetView.tsx'), <p className="opening">Opening the wiring sheet …</p>);
const RuleBook = piece('The rule book', () => import('./RuleBook.tsx'), <p className="opening">Opening the rule book …</p>);
const Guided = piece('The guide', () => import('./guided/Guided.tsx'), <p className="note">One moment …</p>);

/** The open plan: shelf, drawing, answers; on a small screen the drawing with two sheets over it. */
export default function Workbench({ onNew }: { onNew(): void }) {
  const [sheet, setSheet] = useState(false);
  const [shelfOpen, setShelfOpen] = useState(false);
  const [slide, setSlide] = useState<Slide | null>(null);
  const [jobAsked, setJobAsked] = useState(0);
  const [guideAsked, setGuideAsked] = useState(0);
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
        if (now.drawing > before.drawing) setSlide(null);
        if (now.answers === before.answers) return;
        if (phone) setSlide('answers');
        else answers.current?.focus();
      }),
    [wide, phone],
  );

  const book = useApp((s) => s.book);
  const { setBook } = app.getState();
  if (book !== null) return <RuleBook at={book} onOpen={setBook} onClose={() => setBook(null)} />;

  if (sheet) return <SheetView onClose={() => setSheet(false)} />;

  const closeSlide = (): void => setSlide(null);
  const askGuide = (): void => {
    if (planId !== undefined) showGuide(planId, true);
    setGuideAsked((n) => n + 1);
    setSlide(phone ? 'guide' : null);
  };
  const guide = guideShown ? (
    <Guided
      onShown={closeSlide}
      onSheet={() => setSheet(true)}
      onJob={() => {
        setJobAsked((n) => n + 1);
        setSlide(phone ? 'job' : null);
      }}
      onHide={() => {
        if (planId !== undefined) showGuide(planId, false);
        closeSlide();
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
        {wide ? null : <PlacingChip />}
        <SinceChip />
      </main>
      {phone ? null : (
        <div className="bench-strip">
          <Strip open={stripOpen} onToggle={() => setStripOpen(!stripOpen)} />
        </div>
      )}
      {phone ? (
        <PhoneFoot
          hasGuide={guideShown}
          open={slide}
          onToggle={(wanted) => setSlide(slide === wanted ? null : wanted)}
          shelfOpen={shelfOpen}
          onShelf={() => setShelfOpen(!shelfOpen)}
        />
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
      {slide === 'cycle' && phone ? (
        <Drawer side="bottom" label="Key cycle" onClose={closeSlide}>
          <div className="drawer-scroll">
            <Strip open />
          </div>
        </Drawer>
      ) : null}
      {slide === 'job' && phone ? (
        <Drawer side="bottom" label="Job" onClose={closeSlide}>
          <JobLine onOpen={() => undefined} onGuide={comeGuide} />
          <div className="drawer-scroll">
            <Job onShown={closeSlide} />
          </div>
        </Drawer>
      ) : null}
      {slide === 'guide' && phone && guide ? (
        <Drawer side="bottom" label="Guide" onClose={closeSlide}>
          <div className="drawer-scroll">{guide}</div>
        </Drawer>
      ) : null}
      {slide === 'answers' && phone ? (
        <Drawer side="bottom" label="Answers" onClose={closeSlide}>
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
