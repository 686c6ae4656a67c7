import type { Element } from '../../src/circuit/index.ts';

/** Current into one end of an element, by the port at which it is watched. */
export interface Port {
  readonly id: string;
  readonly port?: string;
  readonly from: string;
  readonly to: string;
  readonly sign: 1 | -1;
}

/** All ports of an element, so that what goes in at one node comes out at the other. */
export function portsOf(e: Element): readonly Port[] {
  switch (e.kind) {
    case 'source':
      return [{ id: e.id, from: e.a, to: e.b, sign: -1 }];
    case 'stepdown':
    case 'linear':
      return [
        { id: e.id, port: 'in', from: e.in, to: e.gnd, sign: 1 },
        { id: e.id, port: 'out', from: e.out, to: e.gnd, sign: -1 },
      ];
    case 'opto':
      return [
        { id: e.id, port: 'led', from: e.a, to: e.k, sign: 1 },
        { id: e.id, port: 'out', from: e.c, to: e.e, sign: 1 },
      ];
    default:
      return [{ id: e.id, from: e.a, to: e.b, sign: 1 }];
  }
}
