import type { Ink, Primitive } from '../drawing/types.ts';
import type { InkTable } from './inks.ts';

/** Text smaller than this on screen is left out, px. */
const LEAST_TEXT_PX = 4.5;

/**
 * Paints primitives onto a 2D context. Keeps the last style so that runs of like primitives cost no state changes.
 * The context is already scaled to world units; `zoom` only decides what is too small to show.
 */
export class Painter {
  private stroke = '';
  private fill = '';
  private width = -1;
  private font = '';
  private align = '';
  private dashed = false;
  private cap = '';

  constructor(
    readonly c: CanvasRenderingContext2D,
    private readonly inks: InkTable,
    private readonly zoom: number,
  ) {
    c.lineJoin = 'round';
    c.textBaseline = 'alphabetic';
  }

  paint(p: Primitive): void {
    const { c } = this;
    switch (p.t) {
      case 'line':
        this.pen(p.ink, p.w, p.dash, p.cap);
        this.trace(p.pts);
        c.stroke();
        return;
      case 'rect':
        c.beginPath();
        if (p.r) c.roundRect(p.x, p.y, p.w, p.h, p.r);
        else c.rect(p.x, p.y, p.w, p.h);
        this.finish(p.fill, p.ink, p.lw);
        return;
      case 'circle':
        c.beginPath();
        c.arc(p.x, p.y, p.r, 0, 2 * Math.PI);
        this.finish(p.fill, p.ink, p.lw);
        return;
      case 'poly':
        this.trace(p.pts);
        if (!p.open) c.closePath();
        this.finish(p.fill, p.ink, p.lw);
        return;
      case 'arc':
        this.pen(p.ink, p.w);
        c.beginPath();
        c.arc(p.x, p.y, p.r, (p.from * Math.PI) / 180, (p.to * Math.PI) / 180);
        c.stroke();
        return;
      case 'text':
        this.text(p);
    }
  }

  all(primitives: readonly Primitive[]): void {
    for (const p of primitives) this.paint(p);
  }

  /** Text with the ground showing round it, so that lines under it do not disturb. */
  haloed(p: Primitive & { t: 'text' }, ground: Ink): void {
    if (p.size * this.zoom < LEAST_TEXT_PX) return;
    this.pen(ground, 3.5);
    this.text(p, true);
  }

  private text(p: Primitive & { t: 'text' }, halo = false): void {
    if (p.size * this.zoom < LEAST_TEXT_PX) return;
    const { c } = this;
    const font = `${p.bold ? '650 ' : ''}${p.size}px ${this.inks.font}`;
    if (font !== this.font) {
      this.font = font;
      c.font = font;
    }
    const align = p.anchor === 'middle' ? 'center' : (p.anchor ?? 'start');
    if (align !== this.align) {
      this.align = align;
      c.textAlign = align as CanvasTextAlign;
    }
    if (halo) c.strokeText(p.text, p.x, p.y);
    this.brush(p.ink);
    c.fillText(p.text, p.x, p.y);
  }

  private trace(pts: readonly number[]): void {
    const { c } = this;
    c.beginPath();
    c.moveTo(pts[0] as number, pts[1] as number);
    for (let i = 2; i < pts.length; i += 2) c.lineTo(pts[i] as number, pts[i + 1] as number);
  }

  private finish(fill: Ink | undefined, ink: Ink | undefined, lw: number | undefined): void {
    if (fill) {
      this.brush(fill);
      this.c.fill();
    }
    if (ink) {
      this.pen(ink, lw ?? 1);
      this.c.stroke();
    }
  }

  private brush(ink: Ink): void {
    const colour = this.inks.of(ink);
    if (colour === this.fill) return;
    this.fill = colour;
    this.c.fillStyle = colour;
  }

  private pen(ink: Ink, w: number, dash?: readonly number[], cap: 'butt' | 'round' = 'butt'): void {
    const { c } = this;
    const colour = this.inks.of(ink);
    if (colour !== this.stroke) {
      this.stroke = colour;
      c.strokeStyle = colour;
    }
    if (w !== this.width) {
      this.width = w;
      c.lineWidth = w;
    }
    if (cap !== this.cap) {
      this.cap = cap;
      c.lineCap = cap;
    }
    if (dash || this.dashed) {
      c.setLineDash(dash ? [...dash] : []);
      this.dashed = dash !== undefined;
    }
  }
}
