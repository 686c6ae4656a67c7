import { amount } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { Term } from '../faces/Term.tsx';
import { TypedField } from '../faces/TypedField.tsx';
import { setVehicle } from '../plan/edits.ts';
import { RANGES } from '../plan/limits.ts';
import type { DipLevel, Known, Vehicle } from '../plan/types.ts';
import { useApp } from '../state/store.ts';
import { STATED_C } from '../trade/battery.ts';
import { change } from './actions.ts';
import { FlagField, PickField } from './PickField.tsx';
import { parseCelsius, parseNumber } from './parse.ts';
import { Runs } from './Runs.tsx';
import { Zones } from './Zones.tsx';

const KNOWN = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
  { value: 'unknown', label: 'I don’t know: assume the worst' },
];
const SENSOR = [...KNOWN.slice(0, 2), { value: 'unknown', label: 'I don’t know' }];
const DIPS: readonly { readonly value: DipLevel; readonly label: string }[] = [
  { value: 'I', label: 'I: may restart' },
  { value: 'II', label: 'II: must keep running' },
  { value: 'III', label: 'III: deepest' },
  { value: 'IV', label: 'IV: long' },
];

/** Facts of the vehicle, its zones and the runs between them: what every figure rests on. */
export function VehicleFacts() {
  return (
    <>
      <Facts />
      <Zones />
      <Runs />
    </>
  );
}

function Facts() {
  const plan = useApp((s) => s.plan);
  if (!plan) return null;
  const { vehicle } = plan;
  const set = (patch: Parameters<typeof setVehicle>[1]) => change(setVehicle(plan, patch));
  const number = (key: 'batteryAh' | 'parkedA' | 'standingDays', label: string, unit: string, min: number, max: number, reason: string) => (
    <TypedField
      label={label}
      name={label}
      shown={amount(vehicle[key], unit)}
      automatic={false}
      reason={reason}
      commit={(text) => {
        const parsed = parseNumber(text, unit, min, max);
        return parsed.ok ? set({ [key]: parsed.value }) : parsed.reason;
      }}
    />
  );
  return (
    <Section title="Vehicle">
      <TypedField label="Name" name="Name of the vehicle" shown={vehicle.name} automatic={false} commit={(text) => set({ name: text.trim().slice(0, 60) })} />
      <PickField
        label="System"
        value={String(vehicle.systemV)}
        options={[
          { value: '12', label: '12 V' },
          { value: '24', label: '24 V' },
        ]}
        onPick={(v) => set({ systemV: v === '24' ? 24 : 12 })}
      />
      {number('batteryAh', 'Battery', 'Ah', 1, 1000, 'Printed on its label. Too small a figure only shortens the parked days.')}
      {number('parkedA', 'Vehicle parked', 'A', 0, 5, 'What the sleeping vehicle itself draws; measured at the negative lead.')}
      {number('standingDays', 'Stands for', 'd', 0, 365, 'The longest it is meant to stand unused.')}
      <TypedField
        label="Battery stands at"
        name="Temperature of the parked battery"
        shown={`${vehicle.parkedC ?? STATED_C} °C`}
        automatic={vehicle.parkedC === undefined}
        reason="The mean of day and night where it parks. A warm battery runs down by itself: twice as fast with every 10 °C more (rule of thumb)."
        commit={(text) => {
          const { min, max } = RANGES.vehicle.parkedC;
          const parsed = parseCelsius(text, min, max);
          return parsed.ok ? set({ parkedC: parsed.value }) : parsed.reason;
        }}
        free={() => set({ parkedC: undefined })}
      />
      <TypedField
        label="Used, engine off"
        name="Used with the engine off"
        shown={vehicle.engineOffH === undefined ? '' : amount(vehicle.engineOffH, 'h')}
        automatic={false}
        reason="Hours at a time for which the build runs on the battery alone, at the most."
        commit={(text) => {
          if (text.trim() === '') return set({ engineOffH: undefined });
          const parsed = parseNumber(text, 'h', RANGES.vehicle.engineOffH.min, RANGES.vehicle.engineOffH.max);
          return parsed.ok ? set({ engineOffH: parsed.value }) : parsed.reason;
        }}
      />
      <PickField
        label="Cranking dip"
        value={vehicle.dipLevel}
        options={DIPS}
        reason={
          <>
            How deep the supply may <Term word="dip level">dip</Term> while the starter turns, by ISO 16750-2.
          </>
        }
        onPick={(v) => set({ dipLevel: v as DipLevel })}
      />
      <PickField
        label="Surge clamped"
        value={vehicle.centralClamping}
        options={KNOWN}
        reason={
          <>
            Does the alternator clamp a <Term word="load dump">load dump</Term> by itself? Newer vehicles mostly do.
          </>
        }
        onPick={(v) => set({ centralClamping: v as Known })}
      />
      <PickField
        label="Battery sensor"
        value={vehicle.batterySensor ?? 'unknown'}
        options={SENSOR}
        reason="A small box on the negative post, with a thin plug: it counts what flows in and out of the battery."
        onPick={(v) => set({ batterySensor: v === 'unknown' ? undefined : (v as Known) })}
      />
      <PickField
        label="Body joined to"
        value={vehicle.polarity}
        options={[
          { value: 'negative-ground', label: 'negative (usual)' },
          { value: 'positive-ground', label: 'positive (old)' },
          { value: 'unknown', label: 'I don’t know: assume the worst' },
        ]}
        onPick={(v) => set({ polarity: v as Vehicle['polarity'] })}
      />
      <FlagField label="The engine stops and restarts by itself" value={vehicle.stopStart} onPick={(stopStart) => set({ stopStart })} />
      <FlagField label="It can be started from a distance" value={vehicle.remoteStart} onPick={(remoteStart) => set({ remoteStart })} />
      <FlagField
        label="It is driven electrically, wholly or in part"
        value={vehicle.electrified}
        reason="High-voltage wiring has an orange cover: never probed, never tapped."
        onPick={(electrified) => set({ electrified })}
      />
      <FlagField label="It has a battery isolator switch" value={vehicle.isolator} onPick={(isolator) => set({ isolator })} />
    </Section>
  );
}
