import type { ZoneKind } from '../trade/words.ts';
import { zoneClimate } from '../trade/zones.ts';

const KINDS: readonly ZoneKind[] = ['engine-bay', 'dash', 'dash-top', 'console', 'under-seat', 'desk', 'load-bay', 'roof', 'outside'];

/** Kinds of place with the temperature each is planned for. */
export const ZONE_KINDS: readonly { readonly value: ZoneKind; readonly label: string }[] = KINDS.map((kind) => {
  const { title, maxC } = zoneClimate(kind);
  return { value: kind, label: `${title}, ${maxC} °C` };
});
