import type { TimedCircuit } from './circuit.ts';
import { ampsIn } from './look.ts';
import type { Moment } from './moment.ts';
import type { Watch } from './types.ts';

/** A list of figures that grows. */
class Column {
  private values = new Float64Array(256);
  private length = 0;

  push(value: number): void {
    if (this.length === this.values.length) {
      const bigger = new Float64Array(2 * this.length);
      bigger.set(this.values);
      this.values = bigger;
    }
    this.values[this.length++] = value;
  }

  done(): Float64Array {
    return this.values.slice(0, this.length);
  }
}

/** Keeps what is watched at every accepted step. */
export class Recorder {
  private readonly tS = new Column();
  private readonly volts: readonly { readonly place: number; readonly column: Column }[];
  private readonly amps: readonly { readonly id: string; readonly port: string | undefined; readonly column: Column }[];

  constructor(
    private readonly circuit: TimedCircuit,
    watch: Watch,
  ) {
    const { nodes, nodeIndex } = circuit.network;
    this.volts = watch.nodes.map((node) => {
      const k = nodeIndex.get(node);
      if (k === undefined) throw new Error(`no node ${node} in this network`);
      return { place: k < 0 ? nodes.length : k, column: new Column() };
    });
    this.amps = watch.elements.map(({ id, port }) => ({ id, port, column: new Column() }));
  }

  take(m: Moment): void {
    this.tS.push(m.tS);
    for (const { place, column } of this.volts) column.push(m.x[place]!);
    for (const { id, port, column } of this.amps) column.push(ampsIn(this.circuit, m, id, port));
  }

  done(): { tS: Float64Array; volts: readonly Float64Array[]; amps: readonly Float64Array[] } {
    return { tS: this.tS.done(), volts: this.volts.map((v) => v.column.done()), amps: this.amps.map((a) => a.column.done()) };
  }
}
