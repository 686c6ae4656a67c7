import { makeFacts } from '../../analysis/facts.ts';
import type { Id, Plan } from '../../plan/types.ts';
import { proposals } from '../index.ts';
import type { JobStage } from '../jobTypes.ts';
import type { Results } from '../types.ts';
import { openFindings, ruleChecks } from './checks.ts';
import { button } from './steps/button.ts';
import { camera } from './steps/camera.ts';
import { computer } from './steps/computer.ts';
import { constantFeed, keyFeed } from './steps/feed.ts';
import { ground } from './steps/ground.ts';
import { hold } from './steps/hold.ts';
import { keySense } from './steps/keySense.ts';
import { lengths } from './steps/lengths.ts';
import { masterSwitch } from './steps/master.ts';
import { buy, find, keep, software, trying, wiring } from './steps/onSite.ts';
import { screen } from './steps/screen.ts';
import { sound } from './steps/sound.ts';
import { start } from './steps/start.ts';
import { supply } from './steps/supply.ts';
import { whole } from './steps/whole.ts';
import type { Check, Guide, GuideStep, Offer, Scope, StepState } from './types.ts';
import { isWithout } from './wishes.ts';

/** The steps in the order in which they are gone through: each stands on those before. */
export const STEPS: readonly GuideStep[] = [
  constantFeed,
  keyFeed,
  masterSwitch,
  hold,
  supply,
  ground,
  computer,
  keySense,
  start,
  screen,
  sound,
  camera,
  button,
  lengths,
  whole,
  find,
  buy,
  wiring,
  trying,
  software,
  keep,
];

/**
 * The guided build as the plan stands. Whether a step is done is read from wiring, readings and rules, never from what was
 * pressed: what is undone opens its step again. Pure; `results` and `job` must be those of `plan`.
 * @param at the step to be read instead of the first that is open
 */
export function guideOf(plan: Plan, results: Results, job: readonly JobStage[], at: string | null = null): Guide {
  const scope: Scope = { plan, results, facts: makeFacts(results.filled, results.analysis), job };
  const judged = STEPS.map((step) => judge(scope, step));
  const wished = judged.find((s) => s.step.id === at) ?? judged.find((s) => !s.done && !s.leftOut);
  const current = wished ? { ...wished, offer: wished.done ? null : offerFor(scope, wished) } : null;
  const steps = judged.map((s) => (s === wished && current ? current : s));
  const wanted = steps.filter((s) => !s.leftOut);
  return { steps, current, done: wanted.filter((s) => s.done).length, total: wanted.length };
}

function judge(scope: Scope, step: GuideStep): StepState {
  const checks = [...step.checks(scope), ...ruleChecks(scope, step.rules)];
  const done = checks.every((c) => c.met);
  // A thing that is on the plan after all is part of the build, whatever was said.
  const leftOut = !done && step.wish !== undefined && isWithout(scope.plan, step.wish);
  return { step, done, leftOut, checks, offer: null, about: aboutOf(checks) };
}

/** What the step can do; when its own wiring stands, what a rule proposes against its findings. */
function offerFor(scope: Scope, { step }: StepState): Offer | null {
  const own = step.offer(scope);
  if (own) return own;
  for (const finding of openFindings(scope.results, new Set(step.rules))) {
    const repair = proposals(scope.plan, scope.results, finding)[0];
    if (repair) return { title: repair.title, edit: repair.edit, ask: !repair.safe };
  }
  return null;
}

function aboutOf(checks: readonly Check[]): StepState['about'] {
  const open = checks.some((c) => !c.met && c.about.length > 0) ? checks.filter((c) => !c.met) : checks;
  const of = (kind: 'part' | 'wire'): Id[] => [...new Set(open.flatMap((c) => c.about).flatMap((s) => (s.kind === kind ? [s.id] : [])))];
  return { parts: of('part'), wires: of('wire') };
}

export type { Check, Guide, Offer, StepState, Wish } from './types.ts';
