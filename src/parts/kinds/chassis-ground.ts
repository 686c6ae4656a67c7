import { GROUND_PLACES, groundPlace } from '../../trade/grounds.ts';
import { definePart } from '../definePart.ts';
import { amount, choice } from '../settings.ts';
import { chassisGlyph } from '../symbols.ts';
import type { Settings } from '../types.ts';
import { withUnit } from '../values.ts';

/** Where our ground wires meet the body. */
export const chassisGround = definePart({
  kind: 'chassis-ground',
  title: 'Chassis ground',
  group: 'Feeds',
  about: 'The place where ground wires meet the body, terminal 31: a bare metal stud, never a seat belt bolt or a hinge.',
  words: ['ground', 'chassis', 'body', 'earth', 'negative', '31', 'stud'],
  letter: 'X',
  settings: [
    choice(
      'place',
      'Where it is bolted',
      Object.entries(GROUND_PLACES).map(([value, p]) => [value, p.label] as const),
      'common practice, no source',
    ),
    amount('measuredOhm', 'Resistance to the body, if measured', 'ohm', [0, 0, 10], '0 = not measured: the usual figure for such a place', { rare: true }),
  ],
  terminals: () => [{ id: '31', label: '31', title: 'Ground ring', side: 'top', form: 'ring', role: 'ground' }],
  symbol: () => ({ w: 40, h: 20, primitives: chassisGlyph(20, 0), pads: { '31': { x: 20, y: 0, side: 'top' } } }),
  behave: (s) => ({
    elements: [{ kind: 'resistor', id: 'bond', a: '31', b: '@chassis', ohm: bondOhm(s), tol: { ohm: s.num('measuredOhm') > 0 ? 0.1 : [0.5, 3] } }],
  }),
  facts: (s) => ({ links: [{ a: '31', b: '@chassis', type: 'conductor', ohm: bondOhm(s) }] }),
  subtitle: (s) => groundPlace(s.str('place'))?.label ?? '',
  spec: (s) =>
    `Ring terminal on the ${groundPlace(s.str('place'))?.label ?? 'body'}, bare metal, spring washer; at most ${withUnit(Math.max(0.005, bondOhm(s)), 'ohm')} to the body`,
  meterPoints: () => [{ plus: '31', minus: '@0', what: 'Ground under load, to the battery negative post' }],
});

function bondOhm(s: Settings): number {
  return s.num('measuredOhm') > 0 ? Math.max(1e-4, s.num('measuredOhm')) : (groundPlace(s.str('place'))?.ohm ?? 0.002);
}
