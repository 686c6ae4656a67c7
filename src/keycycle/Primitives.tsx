import { memo } from 'react';
import type { Ink } from '../drawing/types.ts';
import type { StripPiece } from '../sheet/timing/pieces.ts';

/** The pieces of a strip as SVG elements in the colours of the theme. */
export const Primitives = memo(function Primitives({ items }: { readonly items: readonly StripPiece[] }) {
  return items.map((p, i) => {
    // biome-ignore lint/suspicious/noArrayIndexKey: a picture is replaced as a whole, its pieces have no life of their own
    return <Piece key={i} p={p} />;
  });
});

const colour = (ink: Ink | undefined): string => (ink === undefined ? 'none' : `var(--${ink})`);

function Piece({ p }: { readonly p: StripPiece }) {
  switch (p.t) {
    case 'line':
      return (
        <polyline
          points={p.pts.map((v) => v.toFixed(1)).join(' ')}
          fill="none"
          stroke={colour(p.ink)}
          strokeWidth={p.w}
          {...(p.dash ? { strokeDasharray: p.dash.join(' ') } : {})}
        />
      );
    case 'rect':
      return <rect x={p.x} y={p.y} width={p.w} height={p.h} rx={p.r ?? 0} fill={colour(p.fill)} stroke={colour(p.ink)} strokeWidth={p.ink ? (p.lw ?? 1) : 0} />;
    case 'text':
      return (
        <text x={p.x} y={p.y} fontSize={p.size} fill={colour(p.ink)} fontWeight={p.bold ? 650 : 400} textAnchor={p.anchor ?? 'start'}>
          {p.text}
        </text>
      );
  }
}
