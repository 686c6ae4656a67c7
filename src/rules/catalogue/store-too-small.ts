import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { nearestPreferred } from '../../trade/preferred.ts';
import { called, defineRule, part, plain, two, verdicts, volts } from '../defineRule.ts';
import { type Carried, carriedBy, carryS } from '../storeHold.ts';
import { endingAt, stopNeedS } from '../supplyHold.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('store-too-small', 'F4');
/** Cells that are on sale, F (makers' catalogues, from memory). */
const CELLS_F: readonly number[] = [1, 3.3, 5, 10, 25, 50, 100, 150, 200, 310, 350, 500, 650, 1200, 3000];
/** Largest single part that is offered, F (makers' catalogues, from memory). */
const MOST_F = 680;

export const storeTooSmall = defineRule({
  id: 'store-too-small',
  code: 'F4',
  level: 'fault',
  title: 'Hold-up store too small',
  why: 'A supercapacitor gives its energy between two voltages: the one it was filled to and the lowest at which the computer still runs. Old ones hold a third less, and lose more in themselves.',
  source: { text: 'Supercapacitor cell data sheet (read): 70 % of the capacitance and twice the resistance at the end of its life', grade: 'data sheet' },
  needs: 'readings',
  disputed:
    'Supercapacitors carry a computer even when the battery is pulled, yet cost more, age, and fill slowly. A timer relay on permanent 30 is cheap and draws nothing once open, and helps nothing when the battery goes. Lithium packs are common on the bench and have no place in a dash that gets hot. Here timer and store both pass, each by its sum.',
  explains: ['power-gone-too-soon'],
  check: (facts) => {
    const pairs = carriedBy(facts);
    const open = facts
      .ofKind('store')
      .filter((s) => facts.isWired(`${s.part.id}.+`) && facts.ofKind('computer').length > 0 && !pairs.some((p) => p.store === s));
    return [
      ...perStore(pairs).map((c) => judge(facts, c)),
      ...open.map((s) => unknown(part(s.part.id), 'what it is filled to, and the way from it to a computer')),
    ];
  },
  repair: (finding, facts) => {
    const c = perStore(carriedBy(facts)).find((x) => x.store.part.id === finding.subject.id);
    return c ? bigger(facts, c) : [];
  },
});

/** The computer that each store carries for the shortest time. */
function perStore(pairs: readonly Carried[]): Carried[] {
  const worst = new Map<PartView, Carried>();
  for (const c of pairs) if (c.seconds < (worst.get(c.store)?.seconds ?? Number.POSITIVE_INFINITY)) worst.set(c.store, c);
  return [...worst.values()];
}

/** Time that the store itself has to bring, s: the rest of the stop after the supply has gone. */
function restS(facts: Facts, { computer }: Carried): number {
  return stopNeedS(computer) - (endingAt(facts, computer, supplyPair(computer.s).plus)?.holdS ?? 0);
}

function judge(facts: Facts, c: Carried): Verdict {
  const subject = part(c.store.part.id);
  const needS = restS(facts, c);
  if (c.seconds >= needS) return fine(subject);
  if (c.leaks) return runsBack(c, c.leaks, needS);
  return found({
    level: 'fault',
    subject,
    related: [part(c.computer.part.id)],
    what: `At the end of its life ${called(c.store)} carries ${called(c.computer)} for ${two(c.seconds)} s, from ${volts(c.fullV)} down to ${volts(c.leastV)} at ${two(c.watt)} W; its stop needs ${plain(needS)} s.`,
    todo: c.converter
      ? 'Fit a larger store, or switch the display off as soon as the key is off.'
      : 'Put the store ahead of the converter, where it may fall further, or fit a larger one.',
    figures: [
      { label: 'carries', value: c.seconds, unit: 's' },
      { label: 'needed', value: needS, unit: 's' },
      { label: 'power', value: c.watt, unit: 'W' },
    ],
    state: 'RETAIN_DOOR',
    band: null,
  });
}

function runsBack(c: Carried, feed: PartView, needS: number): Verdict {
  return found({
    level: 'fault',
    subject: part(c.store.part.id),
    related: [part(c.computer.part.id), part(feed.part.id)],
    what: `When ${called(feed)} falls with the key, ${called(c.store)} runs back into the vehicle instead of carrying ${called(c.computer)} for the ${plain(needS)} s of its stop: nothing between them lets current one way only.`,
    todo: 'Put a charge limiter or a series diode between the feed and the store.',
    figures: [{ label: 'needed', value: needS, unit: 's' }],
    state: 'RETAIN_DOOR',
    band: null,
  });
}

/** The next size that carries long enough, at the same voltage and with the same resistance. */
function bigger(facts: Facts, c: Carried): Repair[] {
  if (c.leaks) return [];
  const needS = restS(facts, c);
  const ok = (k: number): boolean => carryS({ ...c, farad: c.farad * k }) >= needS;
  if (c.store.kind.kind === 'store') {
    const now = c.store.s.num('cellFarad');
    const size = CELLS_F.find((f) => f > now && ok(f / now));
    return size === undefined ? [] : [sized(c.store, { cellFarad: size }, `Fit cells of ${size} F`)];
  }
  const now = c.store.s.num('farad');
  if (c.seconds <= 0 || (now * needS) / c.seconds > MOST_F) return [];
  const farad = nearestPreferred((now * needS) / c.seconds, 'E6', 'up');
  return [sized(c.store, { farad }, `Fit ${plain(farad)} F`)];
}

function sized(store: PartView, settings: Readonly<Record<string, number>>, title: string): Repair {
  return { title, safe: false, edit: (plan) => setSettings(plan, store.part.id, settings) };
}
