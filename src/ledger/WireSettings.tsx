import type { ReactNode } from 'react';
import { length, significant } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { Term } from '../faces/Term.tsx';
import { TypedField } from '../faces/TypedField.tsx';
import { setWire, type WirePatch } from '../plan/edits.ts';
import { isOthers } from '../plan/given.ts';
import { movingRuns } from '../plan/lengths.ts';
import { wireNumbers } from '../plan/numbers.ts';
import type { ColourCode, Wire } from '../plan/types.ts';
import { useApp } from '../state/store.ts';
import { COLOUR_ORDER, COLOURS } from '../trade/colours.ts';
import { AREAS_MM2, awgLabel } from '../trade/conductors.ts';
import { change } from './actions.ts';
import { automaticReason } from './lookup.ts';
import { FlagField, PickField } from './PickField.tsx';
import { parseArea, parseLength } from './parse.ts';

/** Insulation classes offered, degrees C (ISO 6722 classes A to C and E; common practice which are stocked). */
const INSULATION = [85, 100, 105, 125, 150, 200];
const colours = COLOUR_ORDER.map((code) => ({ value: code, label: `${COLOURS[code].name} (${code})` }));

/** What a person may decide about a wire; everything not decided is automatic, in grey, with its reason. */
export function WireSettings({ wire }: { readonly wire: Wire }) {
  const plan = useApp((s) => s.plan);
  const results = useApp((s) => s.results);
  const units = useApp((s) => s.units);
  if (!plan) return null;
  const filled = results?.filled.wires[wire.id] ?? wire;
  const report = results?.analysis.wires[wire.id];
  const why = (key: string) => automaticReason(results?.reasons[`wire:${wire.id}.${key}`]);
  const set = (patch: WirePatch) => change(setWire(plan, wire.id, patch));
  const areaText = (mm2: number) => (units.area === 'awg' ? awgLabel(mm2) : `${significant(mm2, 3)} mm²`);
  const lengthM = filled.lengthM ?? report?.lengthM;
  const pick = (key: 'colour' | 'stripe', label: string, automatic: string, term?: ReactNode) => (
    <PickField
      label={label}
      term={term}
      value={wire[key] ?? ''}
      options={colours}
      automatic={automatic}
      {...(wire[key] === undefined ? { reason: why(key) } : {})}
      onPick={(value) => set({ [key]: value === '' ? undefined : (value as ColourCode) })}
    />
  );

  return (
    <Section title="Settings of this wire" folded={false}>
      <TypedField
        label="Size"
        name="Conductor size"
        term={units.area === 'awg' ? <Term word="awg">Size</Term> : <Term word="mm2">Size</Term>}
        shown={filled.areaMm2 === undefined ? '' : areaText(filled.areaMm2)}
        automatic={wire.areaMm2 === undefined}
        reason={wire.areaMm2 === undefined ? why('areaMm2') : undefined}
        suggestions={AREAS_MM2.map(areaText)}
        commit={(text) => {
          const parsed = parseArea(text);
          return parsed.ok ? set({ areaMm2: parsed.value }) : parsed.reason;
        }}
        free={() => set({ areaMm2: undefined })}
      />
      {pick('colour', 'Colour', filled.colour ? `Automatic: ${COLOURS[filled.colour].name}` : 'Automatic', <Term word="colour letters">Colour</Term>)}
      {pick(
        'stripe',
        'Stripe',
        wire.stripe === undefined && filled.stripe ? `Automatic: ${COLOURS[filled.stripe].name}` : 'Automatic: none',
        <Term word="stripe">Stripe</Term>,
      )}
      <TypedField
        label="Length"
        name="Length"
        shown={lengthM === undefined ? '' : length(lengthM, units)}
        automatic={wire.lengthM === undefined}
        reason={wire.lengthM === undefined ? (why('lengthM') ?? 'Along the runs between zones, plus 0.3 m at each end.') : undefined}
        commit={(text) => {
          const parsed = parseLength(text, units.length);
          return parsed.ok ? set({ lengthM: parsed.value }) : parsed.reason;
        }}
        free={() => set({ lengthM: undefined })}
      />
      <PickField
        label="Insulation"
        term={<Term word="insulation class">Insulation</Term>}
        value={wire.insulationC === undefined ? '' : String(wire.insulationC)}
        options={INSULATION.map((c) => ({ value: String(c), label: `${c} °C` }))}
        automatic={`Automatic: ${filled.insulationC ?? 105} °C`}
        onPick={(value) => set({ insulationC: value === '' ? undefined : Number(value) })}
      />
      <TypedField
        label="Number"
        name="Wire number"
        shown={filled.number === undefined ? '' : String(filled.number)}
        automatic={wire.number === undefined}
        reason={wire.number === undefined ? why('number') : undefined}
        commit={(text) => {
          const value = Number(text.replace(/^\s*w/i, ''));
          if (!Number.isInteger(value) || value < 1 || value > 9999) return 'A wire number is a whole number from 1 to 9999.';
          const other = Object.values(results?.filled.wires ?? plan.wires).find((w) => w.id !== wire.id && w.number === value);
          if (other) return `Another wire already has number ${value}.`;
          if (isOthers(plan, wire.id, value))
            return `Number ${value} was given to another wire, here or in another wiring of this plan: a number is not given twice.`;
          const isSpent = [...wireNumbers(plan).removed].some(([id, number]) => id !== wire.id && number === value);
          return isSpent ? `Number ${value} was another wire’s, which is gone: a number is not given twice.` : set({ number: value });
        }}
        free={() => set({ number: undefined })}
      />
      <FlagField label="In a tube or sleeve of its own" value={wire.sleeved ?? false} onPick={(on) => set({ sleeved: on ? true : undefined })} />
      {wire.looped || movingRuns(plan, wire).length > 0 ? (
        <FlagField
          label="Fine strands in a tube, with a loop to spare where the way moves"
          value={wire.looped ?? false}
          onPick={(on) => set({ looped: on ? true : undefined })}
        />
      ) : null}
      <FlagField
        label="Fitted: this wire is in the vehicle as drawn"
        value={wire.fitted ?? false}
        reason={wire.fitted ? 'Automatic values are frozen as they were fitted.' : undefined}
        onPick={(on) => set(on ? frozen(filled, lengthM) : { fitted: undefined })}
      />
    </Section>
  );
}

/** A fitted wire keeps what it was fitted with, also when automatic values would change later. */
function frozen(filled: Wire, lengthM: number | undefined): WirePatch {
  const { number, areaMm2, colour, stripe, insulationC } = filled;
  return { fitted: true, number, areaMm2, colour, stripe, lengthM, ...(insulationC === undefined ? {} : { insulationC }) };
}
