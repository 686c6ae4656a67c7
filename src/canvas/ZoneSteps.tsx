import { useEffect, useRef, useState } from 'react';
import { Icon } from '../faces/Icon.tsx';
import { app, useApp } from '../state/store.ts';
import type { View } from './camera.ts';
import { NARROW_PX, zoneCamera, zoneShown } from './zoneView.ts';

/** On a small screen: which zone is looked at, and the way to the one before and after; a swipe does the same. */
export function ZoneSteps() {
  const zones = useApp((s) => s.scene?.zones);
  const camera = useApp((s) => s.camera);
  const place = useRef<HTMLElement>(null);
  const [view, setView] = useState<View>({ w: 0, h: 0 });
  useEffect(() => {
    const plan = place.current?.parentElement;
    if (!plan) return;
    const observer = new ResizeObserver(() => setView({ w: plan.clientWidth, h: plan.clientHeight }));
    observer.observe(plan);
    return () => observer.disconnect();
  }, []);
  const at = zones ? zoneShown(zones, camera, view) : 0;
  const step = (by: number) => {
    const zone = zones?.[at + by];
    if (zone) app.getState().setCamera(zoneCamera(zone.box, view));
  };
  const count = zones?.length ?? 0;
  return (
    <nav ref={place} className="zone-steps" aria-label="Zones" hidden={count < 2 || view.w >= NARROW_PX}>
      <button type="button" className="btn quiet icon" aria-label="Zone before" disabled={at === 0} onClick={() => step(-1)}>
        <Icon name="stepBack" />
      </button>
      <button type="button" className="zone-here" title="Fill the screen with this zone" onClick={() => step(0)}>
        <b>{zones?.[at]?.name}</b>
        <span className="note">
          {at + 1} of {count}
        </span>
      </button>
      <button type="button" className="btn quiet icon" aria-label="Next zone" disabled={at >= count - 1} onClick={() => step(1)}>
        <Icon name="stepOn" />
      </button>
    </nav>
  );
}
