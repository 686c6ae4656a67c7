import type { WireReport } from '../analysis/types.ts';
import type { TerminalForm } from '../parts/types.ts';
import { PAIRED_FORMS } from '../parts/types.ts';
import { wireRoute } from '../plan/lengths.ts';
import type { End, Id, Wire } from '../plan/types.ts';
import { colourText } from '../trade/colours.ts';
import { awgLabel } from '../trade/conductors.ts';
import { type Context, wireName } from './context.ts';

/** Insulation class of a wire that says nothing else, degrees C. */
const INSULATION_C = 105;
/** What to cut beyond the run: a share for bends, and working length at each end, m (common practice, no source). */
const CUT_SHARE = 1.1;
const CUT_END_M = 0.1;
/** Cut lengths are rounded up to this, m. */
const CUT_STEP_M = 0.05;

/** One line of the wire list. NaN = not computed. */
export interface WireRow {
  readonly id: Id;
  /** Number on the drawing, the list and the sleeve of the wire. */
  readonly number: string;
  readonly from: string;
  readonly fromJoint: string;
  readonly to: string;
  readonly toJoint: string;
  /** A ready-made cable between two plugs: nothing to cut or crimp. */
  readonly cable: boolean;
  readonly areaMm2: number | null;
  readonly awg: string;
  /** Insulation colour in words and by the letters of IEC 60757. */
  readonly colour: string;
  readonly letters: string;
  readonly insulationC: number;
  readonly sleeved: boolean;
  /** Zones crossed, in order. */
  readonly way: string;
  readonly lengthM: number;
  readonly cutM: number;
  readonly nominalV: number | null;
  /** Largest heating current, A. */
  readonly loadA: number;
  readonly dropV: number;
  readonly dropShare: number | null;
  /** Fuse that protects it, '' when none does; `F2 (too much)` when it lets more through than the wire carries. */
  readonly protectedBy: string;
  readonly note: string;
  /** It is in the vehicle already. */
  readonly fitted: boolean;
}

/** The build's wires, by number; the vehicle's own are never among them. */
export function wireRows(context: Context): WireRow[] {
  return context.wires.map((wire) => wireRow(context, wire));
}

function wireRow(context: Context, wire: Wire): WireRow {
  const report = context.results.analysis.wires[wire.id];
  const formOf = (end: End): TerminalForm | undefined => context.views.get(end.part)?.terminals.find((t) => t.id === end.terminal)?.form;
  const [fromForm, toForm] = [formOf(wire.from), formOf(wire.to)];
  const cable = fromForm !== undefined && toForm !== undefined && PAIRED_FORMS.has(fromForm) && PAIRED_FORMS.has(toForm);
  const areaMm2 = wire.areaMm2 ?? report?.areaMm2 ?? null;
  const colour = wire.colour ? colourText(wire.colour, wire.stripe) : { words: '', letters: '' };
  const route = wireRoute(context.plan, wire);
  const lengthM = report?.lengthM ?? route?.lengthM ?? Number.NaN;
  return {
    id: wire.id,
    number: wireName(wire),
    from: context.endLabel(wire.from),
    fromJoint: jointWords(fromForm),
    to: context.endLabel(wire.to),
    toJoint: jointWords(toForm),
    cable,
    areaMm2: cable ? null : areaMm2,
    awg: cable || areaMm2 === null ? '' : awgLabel(areaMm2),
    colour: cable ? 'ready-made cable' : colour.words,
    letters: cable ? '' : colour.letters,
    insulationC: wire.insulationC ?? INSULATION_C,
    sleeved: wire.sleeved ?? false,
    way: (route?.zones ?? []).map((id) => context.plan.zones[id]?.name ?? id).join(' → '),
    lengthM,
    cutM: cable ? lengthM : cutLengthM(lengthM),
    nominalV: report?.nominalV ?? null,
    loadA: report?.heatA ?? Number.NaN,
    dropV: report?.worstDropV ?? Number.NaN,
    dropShare: report?.worstDropShare ?? null,
    protectedBy: protectionOf(report),
    note: wire.note ?? '',
    fitted: wire.fitted ?? false,
  };
}

/** Marks a fuse or source that lets more through than the wire carries. */
export const TOO_MUCH = ' (too much)';

function protectionOf(report: WireReport | undefined): string {
  if (!report || report.protectedBy === '') return '';
  return report.isProtected || report.unfused ? report.protectedBy : report.protectedBy + TOO_MUCH;
}

/** The run + 10 % + 100 mm at each end, rounded up to 50 mm; m in, m out. */
export function cutLengthM(lengthM: number): number {
  const exact = lengthM * CUT_SHARE + 2 * CUT_END_M;
  return Math.round(Math.ceil(exact / CUT_STEP_M - 1e-9) * CUT_STEP_M * 100) / 100;
}

const JOINTS: Readonly<Record<TerminalForm, string>> = {
  ring: 'ring terminal',
  blade: 'blade receptacle',
  screw: 'ferrule under screw',
  crimp: 'crimp contact',
  header: 'header socket',
  usb: 'USB plug',
  jack: 'audio plug',
  video: 'video plug',
  lead: 'joined to lead',
  socket: 'power plug',
  splice: 'crimp splice',
};

function jointWords(form: TerminalForm | undefined): string {
  return form ? JOINTS[form] : '';
}

/** How much wire to buy: cut lengths summed for each size, colour and insulation class. */
export interface WireToBuy {
  readonly areaMm2: number;
  readonly awg: string;
  readonly colour: string;
  readonly insulationC: number;
  readonly metres: number;
  readonly pieces: number;
  readonly wires: readonly Id[];
}

export function wireToBuy(rows: readonly WireRow[]): WireToBuy[] {
  const sums = new Map<string, WireToBuy>();
  for (const row of rows) {
    if (row.areaMm2 === null || !Number.isFinite(row.cutM)) continue;
    const key = `${row.areaMm2}|${row.letters}|${row.insulationC}`;
    const so = sums.get(key);
    sums.set(key, {
      areaMm2: row.areaMm2,
      awg: row.awg,
      colour: row.colour,
      insulationC: row.insulationC,
      metres: (so?.metres ?? 0) + row.cutM,
      pieces: (so?.pieces ?? 0) + 1,
      wires: [...(so?.wires ?? []), row.id],
    });
  }
  return [...sums.values()].sort((a, b) => b.areaMm2 - a.areaMm2 || a.colour.localeCompare(b.colour, 'en'));
}
