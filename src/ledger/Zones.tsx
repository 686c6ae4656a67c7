import { Section } from '../faces/Section.tsx';
import { TypedField } from '../faces/TypedField.tsx';
import { addZone, moveZone, removeZone, setZone, zoneOrder } from '../plan/edits.ts';
import { RANGES } from '../plan/limits.ts';
import type { Known, Plan, Zone, ZoneKind } from '../plan/types.ts';
import { widthEdit } from '../scene/zoneWidth.ts';
import { useApp } from '../state/store.ts';
import { zoneClimate } from '../trade/zones.ts';
import { change } from './actions.ts';
import { ZONE_KINDS } from './choices.ts';
import { PickField } from './PickField.tsx';
import { parseCelsius } from './parse.ts';

/** How much wider or narrower one press makes a zone, drawing units. */
const WIDTH_STEP = 80;
const KNOWN = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
  { value: 'unknown', label: 'I don’t know: assume the worst' },
];

/** The zones of the vehicle as places: name, kind, how hot, where in the row and how wide. */
export function Zones() {
  const plan = useApp((s) => s.plan);
  if (!plan) return null;
  const order = zoneOrder(plan);
  return (
    <Section title="Zones" folded>
      {order.map((id, at) => {
        const zone = plan.zones[id];
        return zone ? <ZoneFacts key={id} plan={plan} zone={zone} at={at} last={order.length - 1} /> : null;
      })}
      <p className="note">How wide a zone is drawn: drag its right edge on the drawing. With a finger, tap the zone’s name there first.</p>
      <button type="button" className="btn" onClick={() => change(addZone(plan, { name: 'New zone', kind: 'console' }).edit)}>
        Add a zone
      </button>
    </Section>
  );
}

function ZoneFacts({ plan, zone, at, last }: { readonly plan: Plan; readonly zone: Zone; readonly at: number; readonly last: number }) {
  const { id } = zone;
  const set = (patch: Parameters<typeof setZone>[2]) => change(setZone(plan, id, patch));
  const empty = Object.values(plan.parts).every((p) => p.zone !== id);
  return (
    <fieldset className="zone-facts">
      <legend className="hidden-text">{zone.name}</legend>
      <TypedField
        label="Name"
        name={`Name of zone ${zone.name}`}
        shown={zone.name}
        automatic={false}
        commit={(text) => (text.trim() === '' ? 'A zone needs a name.' : set({ name: text.trim().slice(0, 40) }))}
      />
      <PickField label="Kind of place" value={zone.kind} options={ZONE_KINDS} onPick={(kind) => set({ kind: kind as ZoneKind })} />
      <TypedField
        label="Hottest"
        name={`Hottest in zone ${zone.name}`}
        shown={`${zone.maxC ?? zoneClimate(zone.kind).maxC} °C`}
        automatic={zone.maxC === undefined}
        reason={zone.maxC === undefined ? 'Planning temperature of this kind of place.' : undefined}
        commit={(text) => {
          const parsed = parseCelsius(text, Math.max(-20, RANGES.zones.maxC.min), 150);
          return parsed.ok ? set({ maxC: parsed.value }) : parsed.reason;
        }}
        free={() => set({ maxC: undefined })}
      />
      <PickField
        label="In an airbag’s path"
        value={zone.bag ?? ''}
        options={KNOWN}
        automatic="Not looked at yet"
        reason="An airbag or a belt tensioner unfolds through here, or lies behind this trim: look for its mark on the cover and in the handbook."
        quiet
        onPick={(bag) => set({ bag: bag === '' ? undefined : (bag as Known) })}
      />
      <Place plan={plan} zone={zone} at={at} last={last} />
      {empty && last > 0 ? (
        <button type="button" className="link" onClick={() => change(removeZone(plan, id))}>
          Remove this empty zone
        </button>
      ) : null}
    </fieldset>
  );
}

/** Where the zone stands in the row, and how wide: never narrower than what lies in it. */
function Place({ plan, zone, at, last }: { readonly plan: Plan; readonly zone: Zone; readonly at: number; readonly last: number }) {
  const drawn = useApp((s) => s.scene?.zones.find((z) => z.id === zone.id));
  const button = (face: string, what: string, enabled: boolean, act: () => void) => (
    <button type="button" className="btn" aria-label={what} disabled={!enabled} onClick={act}>
      {face}
    </button>
  );
  const widen = (by: number) => drawn && change(widthEdit(plan, drawn, drawn.box.w + by));
  return (
    <fieldset className="zone-place">
      <legend className="label">Place in the row, and width</legend>
      {button('←', `Move ${zone.name} to the left`, at > 0, () => change(moveZone(plan, zone.id, at - 1)))}
      {button('→', `Move ${zone.name} to the right`, at < last, () => change(moveZone(plan, zone.id, at + 1)))}
      {button('Wider', `Make ${zone.name} wider`, drawn !== undefined, () => widen(WIDTH_STEP))}
      {/* Where its parts need all of the width, there is nothing left to take away. */}
      {button('Narrower', `Make ${zone.name} narrower`, drawn !== undefined && drawn.box.w > drawn.leastW, () => widen(-WIDTH_STEP))}
      {zone.width === null || !drawn ? null : (
        <button type="button" className="link" onClick={() => change(widthEdit(plan, drawn, null))}>
          As wide as its parts need
        </button>
      )}
    </fieldset>
  );
}
