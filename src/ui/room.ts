/** Least widths of the layouts, in the page's own text size: large text counts as a small window. */
const LEAST_EM = { roomy: 87.5, wide: 68.75, medium: 43.75, small: 24, scant: 18 } as const;
/**
 * A window lower than `high` that is at least so wide is a phone laid on its side; a narrower one is a phone whose
 * keyboard has come up, and keeps its layout.
 */
const LOW_EM = { high: 30, wide: 34 } as const;

/**
 * What of the page's room the style sheets ask about, as words: `below-roomy`, `below-wide`, `phone`, `tight`, `low`;
 * `scant` is a phone with large text; and `finger` where a control has to be as large as a finger's tip.
 */
export function roomWords(widthEm: number, coarse: boolean, heightEm = Number.POSITIVE_INFINITY): readonly string[] {
  const words: string[] = [];
  const isLow = heightEm < LOW_EM.high && widthEm >= LOW_EM.wide && widthEm < LEAST_EM.wide;
  const isPhone = widthEm < LEAST_EM.medium || isLow;
  if (widthEm < LEAST_EM.roomy) words.push('below-roomy');
  if (widthEm < LEAST_EM.wide) words.push('below-wide');
  if (isPhone) words.push('phone');
  if (widthEm < LEAST_EM.small) words.push('tight');
  if (widthEm < LEAST_EM.scant) words.push('scant');
  if (isLow) words.push('low');
  if (coarse || isPhone) words.push('finger');
  return words;
}

const told = new Set<() => void>();
let now: readonly string[] = [];

export const room = (): readonly string[] => now;

export function onRoom(changed: () => void): () => void {
  told.add(changed);
  return () => told.delete(changed);
}

/**
 * Keeps `data-room` of the root element in step with the window and the text size. A media query would answer in the
 * browser's first text size, whatever the page's own has become since.
 */
export function followRoom(): void {
  const coarse = window.matchMedia('(pointer: coarse)');
  const ruler = document.createElement('div');
  ruler.style.cssText = 'position:absolute;width:1rem;visibility:hidden';
  ruler.ariaHidden = 'true';
  const measure = (): void => {
    const em = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
    const words = roomWords(window.innerWidth / em, coarse.matches, window.innerHeight / em);
    if (words.join() === now.join()) return;
    now = words;
    document.documentElement.dataset.room = words.join(' ');
    for (const tell of told) tell();
  };
  measure();
  document.body.append(ruler);
  new ResizeObserver(measure).observe(ruler);
  window.addEventListener('resize', measure);
  coarse.addEventListener('change', measure);
}
