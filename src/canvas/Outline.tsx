import { memo, useDeferredValue, useMemo } from 'react';
import { partKind } from '../parts/index.ts';
import { endKey, wiresAt } from '../plan/connect.ts';
import { zoneOrder } from '../plan/edits.ts';
import type { Id, Part, Plan, Wire } from '../plan/types.ts';
import { app, useApp } from '../state/store.ts';
import { endText, terminalOf, terminalsOf } from './sensibleEnds.ts';
import './canvas.css';

/**
 * The plan as a list, in step with the drawing: zones, their parts, a chosen part's terminals, and the wires. Arrow
 * keys move the chosen part, Delete removes, R turns; a terminal's button begins a wire.
 */
export function Outline() {
  // The drawing first: a long list may follow a moment later.
  const plan = useDeferredValue(useApp((s) => s.plan));
  const selection = useApp((s) => s.selection);
  const numbers = useApp((s) => s.results?.filled.wires);
  const wiringFrom = useApp((s) => s.wiringFrom);
  const byZone = useMemo(() => (plan ? partsByZone(plan) : new Map<Id, Part[]>()), [plan]);
  if (!plan) return null;
  const chosenParts = new Set(selection.parts);
  const chosenWires = new Set(selection.wires);
  return (
    <section className="outline" aria-label="Outline of the plan" data-drawing="">
      <h2>Outline</h2>
      <p className="outline-help">Enter chooses. Arrow keys move a chosen part, R turns it, P presses a button, Delete removes it. A terminal begins a wire.</p>
      {zoneOrder(plan).map((zone) => (
        <section key={zone} aria-label={plan.zones[zone]?.name ?? zone}>
          <h3>{plan.zones[zone]?.name}</h3>
          <ul>
            {(byZone.get(zone) ?? []).map((part) => (
              <li key={part.id}>
                <PartButton part={part} chosen={chosenParts.has(part.id)} />
                {chosenParts.has(part.id) && part.kind === 'push-button' ? <Press id={part.id} /> : null}
                {chosenParts.has(part.id) && chosenParts.size === 1 ? <Terminals plan={plan} part={part} from={wiringFrom} /> : null}
              </li>
            ))}
          </ul>
        </section>
      ))}
      <h3>Wires</h3>
      <ul>
        {Object.values(plan.wires).map((wire) => (
          <li key={wire.id}>
            <WireButton text={wireText(plan, wire, numbers?.[wire.id]?.number)} id={wire.id} chosen={chosenWires.has(wire.id)} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function partsByZone(plan: Plan): Map<Id, Part[]> {
  const map = new Map<Id, Part[]>();
  for (const part of Object.values(plan.parts)) {
    const list = map.get(part.zone);
    if (list) list.push(part);
    else map.set(part.zone, [part]);
  }
  for (const list of map.values()) list.sort((a, b) => a.y - b.y || a.x - b.x);
  return map;
}

const PartButton = memo(function PartButton({ part, chosen }: { readonly part: Part; readonly chosen: boolean }) {
  const title = partKind(part.kind).title;
  return (
    <button
      type="button"
      aria-pressed={chosen}
      onClick={(e) => {
        const { selection, select } = app.getState();
        if (e.shiftKey) select({ ...selection, parts: chosen ? selection.parts.filter((p) => p !== part.id) : [...selection.parts, part.id] });
        else select({ parts: [part.id], wires: [] });
      }}
    >
      {part.name ?? title}
      {part.name && part.name !== title ? <span className="hidden-text">, {title}</span> : null}
      {part.owner === 'vehicle' ? <span className="hidden-text">, the vehicle's own</span> : null}
    </button>
  );
});

const WireButton = memo(function WireButton({ id, text, chosen }: { readonly id: Id; readonly text: string; readonly chosen: boolean }) {
  return (
    <button type="button" aria-pressed={chosen} onClick={() => app.getState().select({ parts: [], wires: [id] })}>
      {text}
    </button>
  );
});

function Press({ id }: { readonly id: Id }) {
  const down = useApp((s) => s.pressed.includes(id));
  return (
    <button type="button" aria-pressed={down} onClick={() => app.getState().press(id)}>
      Press it
    </button>
  );
}

function Terminals({ plan, part, from }: { readonly plan: Plan; readonly part: Part; readonly from: { readonly part: Id; readonly terminal: string } | null }) {
  return (
    <ul aria-label="Terminals">
      {terminalsOf(part).map((t) => {
        const end = { part: part.id, terminal: t.id };
        const count = wiresAt(plan).byTerminal.get(endKey(end))?.length ?? 0;
        const begun = from?.part === part.id && from.terminal === t.id;
        return (
          <li key={t.id}>
            <button type="button" aria-pressed={begun} onClick={() => app.getState().setWiringFrom(begun ? null : end)}>
              {t.label === t.title || t.label === '' ? t.title : `${t.label}: ${t.title}`}, {count === 0 ? 'free' : count === 1 ? '1 wire' : `${count} wires`}
            </button>
          </li>
        );
      })}
    </ul>
  );
}

/** "W3, from Blade fuse · 2 to Hold relay · 30". */
function wireText(plan: Plan, wire: Wire, automatic: number | undefined): string {
  const name = (end: Wire['from']): string => {
    const part = plan.parts[end.part];
    const terminal = terminalOf(plan, end);
    return part && terminal ? endText(part, terminal) : end.terminal;
  };
  const number = wire.number ?? automatic;
  const lead = wire.owner === 'vehicle' ? "The vehicle's lead" : number === undefined ? 'Wire' : `W${number}`;
  return `${lead}, from ${name(wire.from)} to ${name(wire.to)}`;
}
