import type { Element } from '../../src/circuit/index.ts';

/**
 * A network shaped like a large plan: feeds with fuses and wires, return wires to a chassis bar, converters, boards
 * with pins, optocouplers with pull-ups, clamps and loads. `repeats` = 1 gives about 50 nodes, 6 about 300.
 */
export function planNetwork(repeats: number, volt: number, busy = 1): Element[] {
  const list: Element[] = [
    { kind: 'source', id: 'battery', a: 'post', b: '0', volt, ohm: 0.02 },
    { kind: 'resistor', id: 'strap', a: 'chassis', b: '0', ohm: 0.002 },
  ];
  const wire = (a: string, b: string, ohm: number): void => {
    list.push({ kind: 'resistor', id: `w${list.length}`, a, b, ohm });
  };
  for (let r = 0; r < repeats; r++) {
    const at = (name: string): string => `${name}.${r}`;
    wire('post', at('tap'), 0.004);
    wire(at('tap'), at('fused'), 0.015);
    wire(at('fused'), at('relay30'), 0.08);
    list.push({ kind: 'diode', id: at('guard'), a: at('relay30'), b: at('guarded'), vF: 0.45, iF: 3, n: 1.05, tC: 40, ohm: 0.02 });
    list.push({ kind: 'zener', id: at('clamp'), a: at('guarded'), b: at('return'), vBr: 30, ohm: 0.4 });
    list.push({ kind: 'capacitor', id: at('bulk'), a: at('guarded'), b: at('return'), farad: 1e-3, esrOhm: 0.05, leakOhm: 1e6 });
    wire(at('guarded'), at('in'), 0.02);
    wire(at('return'), 'chassis', 0.03);
    list.push({
      kind: 'stepdown',
      id: at('converter'),
      in: at('in'),
      gnd: at('return'),
      out: at('out'),
      on: true,
      setV: 5.1,
      outOhm: 0.01,
      limitA: 6,
      dropV: 1,
      eta: [
        [0.1, 0.82],
        [1, 0.93],
        [3, 0.9],
      ],
      quiescentA: 0.001,
      offA: 1e-5,
    });
    wire(at('out'), at('board5'), 0.04);
    wire(at('board0'), at('return'), 0.04);
    list.push({ kind: 'power', id: at('board'), a: at('board5'), b: at('board0'), watt: 6 * busy, minV: 3 });
    list.push({
      kind: 'linear',
      id: at('rail'),
      in: at('board5'),
      gnd: at('board0'),
      out: at('rail3'),
      setV: 3.3,
      outOhm: 0.05,
      limitA: 0.8,
      dropV: 0.3,
      quiescentA: 0.001,
    });
    for (let d = 0; d < 2; d++) {
      wire(at('board5'), at(`usb${d}`), 0.1);
      list.push({ kind: 'current', id: at(`device${d}`), a: at(`usb${d}`), b: at(`usbReturn${d}`), amp: 0.3 * busy, minV: 2.5 });
      wire(at(`usbReturn${d}`), at('board0'), 0.1);
    }
    for (let p = 0; p < 6; p++) {
      const pin = at(`pin${p}`);
      list.push({ kind: 'resistor', id: `${pin}.pull`, a: at('rail3'), b: pin, ohm: 50e3 });
      list.push({ kind: 'diode', id: `${pin}.up`, a: pin, b: at('rail3'), vF: 0.6, iF: 1e-3, n: 1.2, tC: 40, ohm: 20 });
      list.push({ kind: 'diode', id: `${pin}.down`, a: at('board0'), b: pin, vF: 0.6, iF: 1e-3, n: 1.2, tC: 40, ohm: 20 });
      wire(pin, at(`far${p}`), 0.05);
      const isLit = p % 2 === 0;
      list.push({ kind: 'resistor', id: `${pin}.series`, a: isLit ? at('fused') : at('return'), b: at(`led${p}`), ohm: 1800 });
      list.push({
        kind: 'opto',
        id: `${pin}.opto`,
        a: at(`led${p}`),
        k: at(`ledReturn${p}`),
        c: at(`far${p}`),
        e: at('board0'),
        vF: 1.2,
        iF: 0.01,
        n: 1.8,
        tC: 40,
        ctr: 0.5,
        vCeSat: 0.3,
        darkA: 1e-7,
      });
      wire(at(`ledReturn${p}`), at('return'), 0.05);
    }
    wire(at('relay30'), at('lamp'), 0.1);
    list.push({ kind: 'resistor', id: at('lampLoad'), a: at('lamp'), b: at('lampReturn'), ohm: 12 });
    wire(at('lampReturn'), 'chassis', 0.05);
    list.push({ kind: 'resistor', id: at('contact'), a: at('relay30'), b: at('switched'), ohm: r % 2 ? 0.01 : Number.POSITIVE_INFINITY });
    wire(at('switched'), at('amp'), 0.05);
    list.push({ kind: 'power', id: at('amplifier'), a: at('amp'), b: at('ampReturn'), watt: 15 * busy, minV: 7 });
    wire(at('ampReturn'), 'chassis', 0.05);
  }
  return list;
}
