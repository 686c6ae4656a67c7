/** Volts against time by pieces: straight lines and exponential decays. */
export interface Curve {
  /** Times at which it kinks, rising, s; the first is where it begins. */
  readonly corners: readonly number[];
  /** V at a time; before the first corner as there, after the last piece as at its end. */
  volts(tS: number): number;
}

/** Straight lines through points in rising time; level before the first and after the last. */
export function lines(points: readonly (readonly [tS: number, volt: number])[]): Curve {
  return {
    corners: points.map(([tS]) => tS),
    volts: (tS) => {
      let k = 0;
      while (k < points.length && points[k]![0] <= tS) k++;
      if (k === 0) return points[0]![1];
      const [t0, v0] = points[k - 1]!;
      const next = points[k];
      if (!next) return v0;
      const [t1, v1] = next;
      return v0 + ((v1 - v0) * (tS - t0)) / (t1 - t0);
    },
  };
}

/** From `fromV` at `startS` towards `toV` with a time constant. */
export function decay(startS: number, fromV: number, toV: number, tauS: number): Curve {
  return { corners: [startS], volts: (tS) => toV + (fromV - toV) * Math.exp(-Math.max(0, tS - startS) / tauS) };
}

/** One curve after another: each from its first corner to the first corner of the next. */
export function joined(pieces: readonly Curve[]): Curve {
  const starts = pieces.map((p) => p.corners[0]!);
  return {
    corners: [...new Set(pieces.flatMap((p) => p.corners))].sort((a, b) => a - b),
    volts: (tS) => {
      let k = pieces.length - 1;
      while (k > 0 && starts[k]! > tS) k--;
      return pieces[k]!.volts(tS);
    },
  };
}

/** The same curve, later. */
export function later(curve: Curve, byS: number): Curve {
  return { corners: curve.corners.map((tS) => tS + byS), volts: (tS) => curve.volts(tS - byS) };
}
