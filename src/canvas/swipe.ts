import { Pan } from './boxSelect.ts';
import type { Engine } from './engine.ts';
import type { Press } from './gesture.ts';
import { fills, NARROW_PX, zoneCamera, zoneShown } from './zoneView.ts';

/** A swipe is this long, px, done within this time, ms, and flatter than this slope. */
const SWIPE = { px: 60, ms: 400, slope: 0.5 } as const;

/** A finger on free ground drags the view; swiped across while one zone fills the screen, it brings the next. */
export class Swipe extends Pan {
  private readonly since = performance.now();
  private readonly begun: { readonly zone: number; readonly filled: boolean };

  constructor(
    private readonly surface: Engine,
    private readonly start: Press,
    onClick?: (at: Press) => void,
  ) {
    super(surface, start, onClick);
    const zones = surface.scene?.zones ?? [];
    const zone = zoneShown(zones, surface.camera, surface.size);
    const box = zones[zone]?.box;
    this.begun = { zone, filled: box !== undefined && surface.size.w < NARROW_PX && fills(box, surface.camera, surface.size) };
  }

  override drop(at?: Press): void {
    if (!at || !this.begun.filled || performance.now() - this.since > SWIPE.ms) return;
    const dx = at.clientX - this.start.clientX;
    const dy = at.clientY - this.start.clientY;
    if (Math.abs(dx) < SWIPE.px || Math.abs(dy) > SWIPE.slope * Math.abs(dx)) return;
    const next = this.surface.scene?.zones[this.begun.zone + (dx < 0 ? 1 : -1)];
    if (next) this.surface.app.getState().setCamera(zoneCamera(next.box, this.surface.size));
  }
}
