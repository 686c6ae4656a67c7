import { Icon, type IconName } from '../faces/Icon.tsx';
import { piece } from '../faces/piece.tsx';
import { KeySlide } from '../keycycle/KeySlide.tsx';
import { AnswersButton } from './AnswersButton.tsx';
import { GuideWait } from './guided/GuideWait.tsx';

/** What slides up over the drawing on a phone: one at a time. */
export type Slide = 'guide' | 'cycle' | 'job' | 'answers';

/** The guide's line: where it stands. */
export const GuideStatus = piece(
  'The guide',
  () => import('./guided/GuideStatus.tsx'),
  <GuideWait />,
  ({ again }) => (
    <button type="button" className="btn" onClick={again}>
      The guide did not come: try again
    </button>
  ),
);

/** The foot of the page on a phone: the key, and the ways to everything that has no room beside the drawing. */
export function PhoneFoot({
  hasGuide,
  open,
  onToggle,
  shelfOpen,
  onShelf,
}: {
  readonly hasGuide: boolean;
  readonly open: Slide | null;
  onToggle(slide: Slide): void;
  readonly shelfOpen: boolean;
  onShelf(): void;
}) {
  const button = (slide: Slide, label: string, icon: IconName) => (
    <button
      type="button"
      className={open === slide ? 'btn icon on' : 'btn icon'}
      title={label}
      aria-label={label}
      aria-expanded={open === slide}
      onClick={() => onToggle(slide)}
    >
      <Icon name={icon} />
    </button>
  );
  return (
    <section className="bench-foot" aria-label="Key and answers">
      {hasGuide ? <GuideStatus open={open === 'guide'} onOpen={() => onToggle('guide')} /> : null}
      <KeySlide />
      <div className="foot-buttons">
        <button type="button" className="btn" aria-expanded={shelfOpen} onClick={onShelf}>
          <Icon name="shelf" /> <span>Parts</span>
        </button>
        {button('cycle', 'Key cycle', 'cycle')}
        {button('job', 'Job', 'job')}
        <AnswersButton open={open === 'answers'} onToggle={() => onToggle('answers')} />
      </div>
    </section>
  );
}
