import { describe, expect, it } from 'vitest';
import { compile, type Element, elementAmps, solveAtRest } from '../../src/circuit/index.ts';

/**
 * One feed from battery to load, solved by hand with pencil arithmetic: I_out = 9 W / V_load, V_load = 5.10 V -
 * I_out x 1.6 m x 39.0 mohm/m; input power 5.10 V x I_out / 0.88 plus 10 mA; V_in = 12.6 V - I_in x (20 + 15 + 6.4 x
 * 26.0) mohm. Wire figures: IEC 60228 class 5 at 20 degrees C (read); no terminations.
 */
const elements: Element[] = [
  { kind: 'source', id: 'battery', a: 'post', b: '0', volt: 12.6, ohm: 0.02 },
  { kind: 'resistor', id: 'fuse', a: 'post', b: 'fused', ohm: 0.015 },
  { kind: 'resistor', id: 'feed', a: 'fused', b: 'in', ohm: 6.4 * 0.026 },
  {
    kind: 'stepdown',
    id: 'converter',
    in: 'in',
    gnd: '0',
    out: 'out',
    on: true,
    setV: 5.1,
    outOhm: 0,
    limitA: 5,
    dropV: 1,
    eta: [[1, 0.88]],
    quiescentA: 0.01,
    offA: 0,
  },
  { kind: 'resistor', id: 'tail', a: 'out', b: 'load', ohm: 1.6 * 0.039 },
  { kind: 'power', id: 'computer', a: 'load', b: '0', watt: 9, minV: 4 },
];

describe('the hand-solved feed', () => {
  const network = compile(elements);
  const solution = solveAtRest(network, elements);
  const volts = (node: string): number => solution.volts[network.nodeIndex.get(node)!]!;
  const near = (value: number, expected: number): void => expect(Math.abs(value / expected - 1)).toBeLessThan(1e-4);

  it('is solved', () => expect(solution.status).toBe('solved'));
  it('gives 1.8046 A and 4.987 V at the load', () => {
    near(elementAmps(network, elements[5]!, solution), 1.8046);
    near(volts('load'), 4.987);
  });
  it('gives 0.8515 A and 12.4285 V at the converter input', () => {
    near(elementAmps(network, elements[3]!, solution, 'in'), 0.8515);
    near(volts('in'), 12.4285);
  });
});
