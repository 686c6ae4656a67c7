import type { Ink } from '../drawing/types.ts';
import { COLOURS } from '../trade/colours.ts';
import { bladeColour } from '../trade/fuses.ts';
import type { ColourCode } from '../trade/words.ts';

/** Named inks as CSS colours, for one theme. */
export interface InkTable {
  of(ink: Ink): string;
  /** Insulation that would vanish on this theme's ground gets an edge. */
  readonly edged: ReadonlySet<Ink>;
  readonly font: string;
}

/** CSS custom property of each plain ink. Borders and fills share the hairline colour; hints are text and stay legible. */
const PROPERTY: Readonly<Record<string, string>> = {
  ink: '--ink',
  soft: '--soft',
  faint: '--line',
  paper: '--paper',
  ground: '--ground',
  accent: '--accent',
  vehicle: '--vehicle',
  hazard: '--hazard',
  fault: '--fault',
  advice: '--advice',
  edge: '--wire-edge',
  'zone-a': '--zone-a',
  'zone-b': '--zone-b',
};

/** Below this contrast to the ground a wire needs an edge. Our own choice, tried on the three themes. */
const LEAST_CONTRAST = 1.9;

/**
 * Reads the theme's colours once.
 * @param read value of a CSS custom property, '' when it is not set
 */
export function inkTable(read: (property: string) => string): InkTable {
  const memo = new Map<Ink, string>();
  const of = (ink: Ink): string => {
    let colour = memo.get(ink);
    if (colour === undefined) {
      colour = resolve(ink, read);
      memo.set(ink, colour);
    }
    return colour;
  };
  const ground = luminance(of('zone-a'));
  const edged = new Set<Ink>();
  for (const code of Object.keys(COLOURS) as ColourCode[]) {
    const own = luminance(COLOURS[code].hex);
    const ratio = (Math.max(own, ground) + 0.05) / (Math.min(own, ground) + 0.05);
    if (ratio < LEAST_CONTRAST) edged.add(`wire-${code}`);
  }
  return { of, edged, font: read('--font').trim() || 'system-ui, sans-serif' };
}

/** Reads custom properties where an element stands; a colour by name, as the device gives them, as `#rrggbb`. */
export function readColours(at: HTMLElement): (property: string) => string {
  const style = getComputedStyle(at);
  return (property) => {
    const value = style.getPropertyValue(property).trim();
    if (property === '--font' || value === '' || value.startsWith('#')) return value;
    const probe = document.createElement('span');
    probe.style.cssText = `forced-color-adjust:none;color:${value}`;
    at.append(probe);
    const channels = getComputedStyle(probe).color.match(/[\d.]+/g) ?? [];
    probe.remove();
    return `#${channels
      .slice(0, 3)
      .map((c) => Math.round(Number(c)).toString(16).padStart(2, '0'))
      .join('')}`;
  };
}

/** Tells when the device puts its own colours in place of the page's, or takes them away. */
export function followDeviceColours(changed: () => void): () => void {
  const forced = window.matchMedia('(forced-colors: active)');
  forced.addEventListener('change', changed);
  return () => forced.removeEventListener('change', changed);
}

function resolve(ink: Ink, read: (property: string) => string): string {
  const property = PROPERTY[ink];
  if (property) return read(property).trim() || '#000000';
  if (ink.startsWith('wire-')) return COLOURS[ink.slice(5) as ColourCode]?.hex ?? '#888888';
  const letters = bladeColour(Number(ink.slice(5))).letters;
  return letters ? COLOURS[letters].hex : '#b9b9b2';
}

/** Relative luminance by WCAG 2 of `#rgb` or `#rrggbb`; other notations count as mid grey. */
export function luminance(hex: string): number {
  const long = /^#[0-9a-f]{3}$/i.test(hex) ? `#${[...hex.slice(1)].map((c) => c + c).join('')}` : hex;
  if (!/^#[0-9a-f]{6}$/i.test(long)) return 0.2;
  const [r, g, b] = [1, 3, 5].map((i) => {
    const v = Number.parseInt(long.slice(i, i + 2), 16) / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
