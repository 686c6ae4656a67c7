import { describe, expect, it } from 'vitest';
import { PartBehaviour } from '../../src/analysis/behaviours.ts';
import { viewsOf } from '../../src/analysis/views.ts';
import type { Device, Probe } from '../../src/circuit/types.ts';
import { partKinds } from '../../src/parts/index.ts';
import type { PartKind, Situation } from '../../src/parts/types.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Band, Part, Plan, VehicleState } from '../../src/plan/types.ts';
import { isLive } from '../../src/trade/lines.ts';
import { STATES, supplyV } from '../../src/trade/supply.ts';

const BANDS: readonly Band[] = ['low', 'typical', 'high'];
const LOADS = { low: 'heavy', typical: 'typical', high: 'light' } as const;

type AtMoment = Omit<Situation, 'on'>;

function situation(state: VehicleState, band: Band, more: Partial<AtMoment> = {}): AtMoment {
  const { vehicle } = emptyPlan('t');
  return {
    state,
    band,
    vehicle,
    supplyV: supplyV(12, state, 'I')[band],
    ambientC: { low: 70, typical: 20, high: -30 }[band],
    load: LOADS[band],
    live: (line) => isLive(line, state),
    wired: () => true,
    pressed: false,
    ...more,
  };
}

function planWith(kind: PartKind, settings: Part['settings']): { plan: Plan; part: Part } {
  const part: Part = { id: 'p9', kind: kind.kind, owner: 'build', zone: 'z2', x: 0, y: 0, turn: 0, settings };
  return { part, plan: { ...emptyPlan('t'), parts: { p9: part } } };
}

const CASES = [...partKinds.values()].flatMap((kind) => [
  { name: kind.kind, kind, settings: {} as Part['settings'] },
  ...(kind.variants ?? []).map((v) => ({ name: `${kind.kind} ${v.id}`, kind, settings: v.settings })),
]);

/** Every figure of an element but its nodes, which are renamed. */
function figures(e: object): string {
  return JSON.stringify(Object.entries(e).filter(([key]) => !['id', 'a', 'b', 'k', 'c', 'e', 'in', 'gnd', 'out'].includes(key)));
}

describe('what a part does, kept', () => {
  it.each(CASES)('is what it does anew, whatever was asked before: $name', ({ kind, settings }) => {
    const { plan } = planWith(kind, settings);
    const view = viewsOf(plan).get('p9')!;
    const kept = new PartBehaviour(view);
    const asks: [AtMoment, (device: string) => boolean][] = [];
    for (const state of STATES) {
      for (const band of BANDS) {
        for (const pressed of band === 'typical' ? [false, true] : [false]) {
          for (const on of [() => false, () => true, (d: string) => d.length % 2 === 0]) {
            asks.push([situation(state, band, { pressed, load: pressed ? 'heavy' : LOADS[band] }), on]);
          }
        }
      }
    }
    // Once forward and once backward: what was kept early is asked for again late.
    for (const [s, on] of [...asks, ...asks.toReversed()]) {
      const anew = kind.behave(view.s, { ...s, on: (local) => on(`p9:${local}`) });
      const found = kept.at(s, on);
      expect(found.elements.map(figures)).toEqual(anew.elements.map(figures));
      expect(found.elements.map((e) => e.id)).toEqual(anew.elements.map((e) => `p9:${e.id}`));
      expect(found.devices.map(({ id, operateS, releaseS }) => [id, operateS, releaseS])).toEqual(
        (anew.devices ?? []).map(({ id, operateS, releaseS }) => [`p9:${id}`, operateS, releaseS]),
      );
    }
  });

  it.each(CASES)('has looked at all it needs when it was asked: $name', ({ kind, settings }) => {
    const { plan } = planWith(kind, settings);
    const view = viewsOf(plan).get('p9')!;
    for (const state of STATES) {
      for (const band of BANDS) {
        let late = false;
        const looked = new Set<string>();
        const plain: Situation = { ...situation(state, band), on: () => false };
        const watched = new Proxy(plain, {
          get(target, key: keyof Situation) {
            if (late && !looked.has(key) && key !== 'vehicle' && key !== 'wired') throw new Error(`${kind.kind} looks at ${key} too late`);
            looked.add(key);
            return target[key];
          },
        });
        const { devices = [] } = kind.behave(view.s, watched);
        late = true;
        for (const volt of [0, 3, 12]) for (const d of devices) for (const on of [false, true]) wants(d, volt, on);
      }
    }
  });
});

function wants(device: Device, volt: number, on: boolean): void {
  const probe: Probe = { volts: (node) => (node === '31' || node === 'gnd' || node === '85' || node === '6' ? 0 : volt), amps: () => 0, on: () => on };
  device.wants(probe, on);
}
