import { amount } from '../faces/format.ts';
import { Section } from '../faces/Section.tsx';
import { TypedField } from '../faces/TypedField.tsx';
import { later, useLater } from '../faces/useLater.ts';
import { setThreshold } from '../plan/edits.ts';
import type { Limit } from '../rules/types.ts';
import { app, useApp } from '../state/store.ts';
import { change } from './actions.ts';
import { type Parsed, parseLength, parseNumber } from './parse.ts';

// The rules arrive late, so that the first screen need not wait for them.
const limitsCode = later('The list of limits', () => import('../rules/limits.ts'));

/** Figures that practice does not agree on: the rules' defaults, each with its basis, until this plan has its own. */
export function Limits() {
  const plan = useApp((s) => s.plan);
  const code = useLater(limitsCode);
  if (!plan || !code) return null;
  return (
    <Section title="Limits, where practice differs" folded>
      {code.limits.map((limit) => {
        const own = plan.thresholds[limit.key];
        return (
          <TypedField
            key={limit.key}
            label={limit.title}
            shown={shown(limit, own ?? limit.value)}
            automatic={own === undefined}
            reason={own === undefined ? `Default: ${limit.basis}.` : `Yours. The default is ${shown(limit, limit.value)}: ${limit.basis}.`}
            quiet={own === undefined}
            commit={(text) => {
              const parsed = parse(limit, text);
              return parsed.ok ? change(setThreshold(plan, limit.key, parsed.value)) : parsed.reason;
            }}
            free={() => change(setThreshold(plan, limit.key, undefined))}
          />
        );
      })}
      <button type="button" className="link" onClick={() => app.getState().setBook('')}>
        The rules that use them, in the rule book
      </button>
    </Section>
  );
}

/** A share is shown and typed in per cent. */
function shown(limit: Limit, value: number): string {
  return limit.unit === 'share' ? `${Number((100 * value).toPrecision(4))} %` : amount(value, limit.unit);
}

function parse({ unit, least, most }: Limit, text: string): Parsed<number> {
  if (unit === 'share') {
    const parsed = parseNumber(text.replace(/\s*%\s*$/, ''), '', 100 * least, 100 * most);
    return parsed.ok ? { ok: true, value: parsed.value / 100 } : parsed;
  }
  if (unit !== 'm') return parseNumber(text, unit, least, most);
  const parsed = parseLength(text, 'm');
  if (!parsed.ok || (parsed.value >= least && parsed.value <= most)) return parsed;
  return { ok: false, reason: `Between ${amount(least, 'm')} and ${amount(most, 'm')}.` };
}
