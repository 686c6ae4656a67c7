import { readFileSync } from 'node:fs';
import type { Plan } from '../src/plan/types.ts';

const DEMO = 'public/plans/mobile-library-van.plan.json';

/** What each part is in the build: by name or kind, the nth of that kind in the order of making. */
type Roles = Readonly<Record<string, string>>;
const COMMON: Roles = {
  battery: 'battery',
  'battery strap': 'Battery strap',
  'constant feed': 'feed-30',
  'ignition feed': 'feed-15',
  'supply fuse': 'blade-fuse#1',
  'sense fuse': 'blade-fuse#2',
  'display fuse': 'Display fuse',
  'sense resistor': 'Sense resistor',
  'key sensor': 'Key sensor',
  'reverse diode': 'Reverse diode',
  'pull-up': 'Pull-up',
  radio: 'radio-aux',
  'master switch': 'master-switch',
  'hold relay': 'delay-off-relay',
  clamp: 'surge-clamp',
  guard: 'reverse-guard',
  bulk: 'capacitor#1',
  converter: 'step-down',
  computer: 'computer',
  display: 'touch-display',
  'card reader': 'usb-device',
  sound: 'usb-sound',
  isolator: 'audio-isolator',
  'button 1': 'push-button#1',
  'button 2': 'push-button#2',
  'button resistor 1': 'resistor#3',
  'button resistor 2': 'resistor#4',
  'button filter 1': 'capacitor#2',
  'button filter 2': 'capacitor#3',
};
const ORIGINAL: Roles = { ...COMMON, ground: 'Radio ground' };
const REBUILT: Roles = { ...COMMON, ground: 'Dash ground' };

/** Parts with two like ends: which of them is where makes no difference. */
const LIKE_ENDS = new Set(['blade-fuse', 'resistor', 'master-switch', 'push-button', 'audio-isolator']);

/** The demo's joins. */
export const demoJoins = (): string[] => joinsOf(JSON.parse(readFileSync(DEMO, 'utf8')) as Plan, ORIGINAL);
/** Those of a plan in which the demo was built again. */
export const rebuiltJoins = (plan: Plan): string[] => joinsOf(plan, REBUILT);

/** Which terminals are joined by wires and splices, in words that are the same for two plans of the same build. */
function joinsOf(plan: Plan, roles: Roles): string[] {
  const roleOf = new Map(Object.entries(roles).map(([role, ref]) => [partOf(plan, ref).id, role]));
  const name = (end: Plan['wires'][string]['from']): string => {
    const part = plan.parts[end.part];
    const role = roleOf.get(end.part);
    if (!part || role === undefined) throw new Error(`${part?.name ?? part?.kind ?? end.part} is no part of the demo`);
    return LIKE_ENDS.has(part.kind) || unpolarised(part.settings) ? role : `${role}.${end.terminal}`;
  };
  // Terminals of one net end up in one set.
  const nets = new Map<string, Set<string>>();
  const at = (end: Plan['wires'][string]['from']): Set<string> => {
    const key: string = `${end.part}.${end.terminal}`;
    const net = nets.get(key) ?? new Set<string>([key]);
    nets.set(key, net);
    return net;
  };
  for (const wire of Object.values(plan.wires)) {
    const both = new Set<string>([...at(wire.from), ...at(wire.to)]);
    for (const key of both) nets.set(key, both);
  }
  const terminals = new Map<string, Plan['wires'][string]['from']>(
    Object.values(plan.wires).flatMap((w) => [w.from, w.to].map((e) => [`${e.part}.${e.terminal}`, e] as const)),
  );
  return [...new Set(nets.values())]
    .map((net) =>
      [...net]
        .flatMap((key) => {
          const end = terminals.get(key);
          return end && plan.parts[end.part]?.kind !== 'splice' ? [name(end)] : [];
        })
        .sort()
        .join(' = '),
    )
    .sort();
}

function unpolarised(settings: Plan['parts'][string]['settings']): boolean {
  return settings.polarised === false;
}

function partOf(plan: Plan, ref: string): Plan['parts'][string] {
  const [kind, nth] = ref.split('#');
  const found = Object.values(plan.parts)
    .filter((p) => p.name === kind || p.kind === kind)
    .sort((a, b) => Number(a.id.slice(1)) - Number(b.id.slice(1)));
  const part = found[Number(nth ?? 1) - 1];
  if (!part) throw new Error(`no part "${ref}"`);
  return part;
}
