import fc from 'fast-check';
import type { Element } from '../../src/circuit/index.ts';

/** Logarithmically spread figure between two bounds. */
const spread = (low: number, high: number): fc.Arbitrary<number> => fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map((x) => Math.exp(x));

const range = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/**
 * Elements of every kind between random nodes of a network of wires with `size` nodes fed at node n1. An optocoupler's
 * transistor pulls a node of its own (`o<k>`) down: free to feed its own LED it could latch, and a latch has two
 * solutions. With `isWild` it may.
 */
export function randomNetwork(size = 12, isWild = false): fc.Arbitrary<Element[]> {
  const node = fc.integer({ min: 0, max: size }).map((k) => (k === 0 ? '0' : `n${k}`));
  const ends = fc.record({ a: node, b: node });
  const wires = fc.tuple(
    ...Array.from({ length: size - 1 }, (_, k) =>
      fc
        .record({ parent: fc.integer({ min: 0, max: k }), ohm: spread(1e-4, 100) })
        .map(({ parent, ohm }): Element => ({ kind: 'resistor', id: `wire${k}`, a: `n${parent + 1}`, b: `n${k + 2}`, ohm })),
    ),
  );
  const battery = fc.record({ volt: range(6, 28), ohm: spread(1e-3, 5) }).map((r): Element => ({ kind: 'source', id: 'battery', a: 'n1', b: '0', ...r }));
  const loose = fc.oneof(
    fc
      .record({ ends, ohm: fc.oneof(spread(1e-4, 1e6), fc.constant(Number.POSITIVE_INFINITY)) })
      .map((r) => ({ kind: 'resistor' as const, ...r.ends, ohm: r.ohm })),
    fc.record({ ends, volt: range(0, 15), ohm: spread(1e-2, 100) }).map((r) => ({ kind: 'source' as const, ...r.ends, volt: r.volt, ohm: r.ohm })),
    fc.record({ ends, amp: spread(1e-4, 2), minV: range(0.5, 6) }).map((r) => ({ kind: 'current' as const, ...r.ends, amp: r.amp, minV: r.minV })),
    fc.record({ ends, watt: spread(1e-2, 30), minV: range(1, 8) }).map((r) => ({ kind: 'power' as const, ...r.ends, watt: r.watt, minV: r.minV })),
    fc
      .record({ ends, vF: range(0.3, 1.1), iF: spread(1e-3, 1), n: range(1, 2), ohm: fc.oneof(fc.constant(0), spread(1e-3, 0.3)), tC: range(-30, 85) })
      .map(({ ends: e, ...r }) => ({ kind: 'diode' as const, ...e, ...r })),
    fc
      .record({ ends, vBr: range(3, 33), ohm: spread(0.05, 20), bidirectional: fc.boolean() })
      .map(({ ends: e, ...r }) => ({ kind: 'zener' as const, ...e, ...r })),
    fc
      .record({ led: ends, out: fc.record({ c: node, e: node }), ctr: range(0.2, 6), vCeSat: range(0.1, 0.5) })
      .map((r) => ({ kind: 'opto' as const, a: r.led.a, k: r.led.b, ...r.out, vF: 1.2, iF: 0.01, n: 1.8, tC: 25, ctr: r.ctr, vCeSat: r.vCeSat, darkA: 5e-8 })),
    fc
      .record({ in: node, gnd: node, out: node, on: fc.boolean(), setV: range(3, 6), outOhm: spread(1e-4, 0.1), limitA: range(0.5, 8), dropV: range(0.1, 2) })
      .map((r) => ({ kind: 'stepdown' as const, ...r, eta: [[0.1, 0.8] as const, [1, 0.92] as const, [3, 0.88] as const], quiescentA: 0.005, offA: 1e-4 })),
    fc
      .record({ in: node, gnd: node, out: node, setV: range(2, 9), outOhm: spread(1e-3, 0.5), limitA: range(0.05, 1.5), dropV: range(0.1, 2) })
      .map((r) => ({ kind: 'linear' as const, ...r, quiescentA: 0.004 })),
    fc.record({ ends, leakOhm: spread(1e4, 1e8) }).map((r) => ({ kind: 'capacitor' as const, ...r.ends, farad: 1e-3, esrOhm: 0.05, leakOhm: r.leakOhm })),
    fc.record({ ends, ohm: spread(1e-3, 200) }).map((r) => ({ kind: 'inductor' as const, ...r.ends, henry: 1e-3, ohm: r.ohm })),
  );
  return fc.record({ battery, wires, loose: fc.array(loose, { minLength: 3, maxLength: 2 * size }) }).map((r) => [
    r.battery,
    ...r.wires,
    ...r.loose.flatMap((e, k): Element[] => {
      const id = `${e.kind}${k}`;
      if (e.kind !== 'opto' || isWild) return [{ ...e, id }];
      return [
        { ...e, id, c: `o${k}` },
        { kind: 'resistor', id: `pull${k}`, a: `n${size}`, b: `o${k}`, ohm: 4700 },
      ];
    }),
  ]);
}
