import type { Facts, PartView } from '../analysis/factsTypes.ts';
import type { Band, Id, VehicleState } from '../plan/types.ts';
import type { Figure, Finding, Level, RuleDef, Subject, Verdict } from './types.ts';

/**
 * Checks a rule when its module loads.
 * @throws Error naming the rule and the slip (programmer misuse only).
 */
export function defineRule(rule: RuleDef): RuleDef {
  const bad = (why: string): never => {
    throw new Error(`rule "${rule.id}": ${why}`);
  };
  if (!/^[a-z][a-z0-9-]*$/.test(rule.id)) bad('id is not a plain-lower-case-name');
  if (!/^[A-L]\d+$/.test(rule.code)) bad(`code "${rule.code}" is not a catalogue code`);
  for (const key of ['title', 'why'] as const) if (rule[key].trim() === '') bad(`${key} is empty`);
  if (rule.source.text.trim() === '') bad('source is empty');
  return rule;
}

export interface FindingParts {
  readonly level: Level;
  readonly subject: Subject;
  readonly related?: readonly Subject[];
  readonly what: string;
  readonly todo: string;
  readonly figures?: readonly Figure[];
  readonly state?: VehicleState | null;
  readonly band?: Band | null;
  readonly floods?: true;
  readonly data?: Finding['data'];
}

/** The three verdicts with a rule's id and code filled in. */
export function verdicts(
  id: string,
  code: string,
): {
  fine(subject: Subject): Verdict;
  unknown(subject: Subject, needs: string): Verdict;
  found(f: FindingParts): Verdict;
} {
  return {
    fine: (subject) => ({ outcome: 'fine', subject }),
    unknown: (subject, needs) => ({ outcome: 'cannot tell', subject, needs }),
    found: (f) => ({
      outcome: 'finding',
      finding: {
        rule: id,
        code,
        level: f.level,
        subject: f.subject,
        related: f.related ?? [],
        what: f.what,
        todo: f.todo,
        figures: f.figures ?? [],
        state: f.state ?? null,
        band: f.band ?? null,
        ...(f.floods ? { floods: f.floods } : {}),
        ...(f.data ? { data: f.data } : {}),
      },
    }),
  };
}

export function part(id: Id): Subject {
  return { kind: 'part', id };
}

export function wire(id: Id): Subject {
  return { kind: 'wire', id };
}

/** "F2 Blade fuse": how a part is called in a finding. */
export function called(view: PartView): string {
  return `${view.item} ${view.name}`;
}

/** "W7": how a wire is called in a finding. */
export function wireName(facts: Facts, id: Id): string {
  return `W${facts.plan.wires[id]?.number ?? '?'}`;
}

/** Two significant figures for drops, margins and small currents. */
export function two(x: number): string {
  if (!Number.isFinite(x)) return x > 0 ? 'unlimited' : '-';
  if (x === 0) return '0';
  const digits = Math.max(0, 1 - Math.floor(Math.log10(Math.abs(x))));
  return x.toFixed(Math.min(digits, 6));
}

/** Three significant figures for volts. */
export function three(x: number): string {
  if (x === 0) return '0';
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(x))));
  return x.toFixed(Math.min(digits, 4));
}

/** Volts as a fitter says them: three significant figures, no idle zeros: 12 V, 4.97 V. */
export function volts(x: number): string {
  return `${Number(three(x)) + 0} V`;
}

/** Amps as a fitter says them: 1.8 A, 25 mA, 40 µA. */
export function amps(x: number): string {
  const a = Math.abs(x);
  if (!Number.isFinite(a)) return 'unlimited';
  if (a >= 0.1) return `${two(x)} A`;
  if (a >= 1e-4) return `${two(x * 1e3)} mA`;
  // Nobody measures less; what is left of a sum is no current.
  return a < 1e-9 ? '0 A' : `${two(x * 1e6)} µA`;
}

/** Two currents that a sentence compares: with more figures where fewer would make them look alike. */
export function ampsApart(a: number, b: number): readonly [string, string] {
  return apart(a, b, amps, (x, digits) => {
    const [scale, unit] = Math.abs(x) >= 0.1 ? [1, 'A'] : Math.abs(x) >= 1e-4 ? [1e3, 'mA'] : [1e6, 'µA'];
    return `${Number((x * scale).toPrecision(digits))} ${unit}`;
  });
}

/** The same for two voltages. */
export function voltsApart(a: number, b: number): readonly [string, string] {
  return apart(a, b, volts, (x, digits) => `${Number(x.toPrecision(digits))} V`);
}

/** The same for two figures whose unit stands in the sentence. */
export function plainApart(a: number, b: number): readonly [string, string] {
  return apart(a, b, plain, (x, digits) => `${Number(x.toPrecision(digits))}`);
}

function apart(a: number, b: number, say: (x: number) => string, exact: (x: number, digits: number) => string): readonly [string, string] {
  if (a === b || say(a) !== say(b) || !Number.isFinite(a) || !Number.isFinite(b)) return [say(a), say(b)];
  for (let digits = 3; digits < MOST_DIGITS; digits++) if (exact(a, digits) !== exact(b, digits)) return [exact(a, digits), exact(b, digits)];
  return [exact(a, MOST_DIGITS), exact(b, MOST_DIGITS)];
}

/** Nobody measures more. */
const MOST_DIGITS = 6;

/** Three significant figures without idle zeros: 38.8, 90. */
export function plain(x: number): string {
  return `${Number(x.toPrecision(3)) + 0}`;
}

/** Ohms as printed on the part: 680 Ω, 2.2 kΩ. */
export function ohms(x: number): string {
  if (x >= 1e6) return `${Number((x / 1e6).toPrecision(3))} MΩ`;
  if (x >= 1e3) return `${Number((x / 1e3).toPrecision(3))} kΩ`;
  return `${Number(x.toPrecision(3))} Ω`;
}

export const STATE_WORDS: Readonly<Record<VehicleState, string>> = {
  ISOLATED: 'isolated',
  OFF_ASLEEP: 'parked',
  OFF_AWAKE: 'just unlocked',
  ACC: 'accessory',
  RUN_STOPPED: 'ignition on',
  START: 'starting',
  RUN_CHARGING: 'running',
  RETAIN: 'just after key-off',
  RETAIN_DOOR: 'key off, door opened',
  AUTO_STOP: 'engine stopped at a halt',
  AUTO_CRANK: 'restarting from a halt',
  REMOTE_RUN: 'started from outside',
  PARKED_CHARGE: 'parked and charging',
  ISOLATED_RUNNING: 'isolator opened while running',
};
