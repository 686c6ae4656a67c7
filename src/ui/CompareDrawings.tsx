import { useEffect, useMemo, useState } from 'react';
import { viewsOf } from '../analysis/views.ts';
import type { Plan } from '../plan/types.ts';
import { sceneSteps } from '../scene/buildScene.ts';
import type { Scene } from '../scene/types.ts';
import { type Comparison, comparedDrawing, SIGNS, type Side } from '../sheet/compare/index.ts';

/** A drawing in the making leaves the page a breath after so long, ms. */
const BREATH_MS = 12;

/** Both wirings drawn one above the other; what is the same stands back. */
export function CompareDrawings({ sides, comparison }: { readonly sides: readonly [Side, Side]; readonly comparison: Comparison }) {
  const [one, other] = [sides[0].results.filled, sides[1].results.filled];
  const { differences, letters } = comparison;
  const scenes = useScenes(one, other);
  const drawn = useMemo(
    () =>
      scenes && [
        comparedDrawing(scenes[0], itemsOf(one), differences, 'one', `Wiring ${letters.one}`),
        comparedDrawing(scenes[1], itemsOf(other), differences, 'other', `Wiring ${letters.other}`),
      ],
    [scenes, one, other, differences, letters.one, letters.other],
  );
  const count = (where: 'one' | 'other' | 'both'): number => differences.filter((d) => d.where === where).length;
  return (
    <section className="compare-block compare-drawn" aria-labelledby="compare-drawn">
      <h2 id="compare-drawn">Drawn</h2>
      <p className="note">
        What is the same in both is thin and grey. In a solid frame or on a grey band: <b>{SIGNS.one}</b> only in {letters.one}, <b>{SIGNS.other}</b> only in{' '}
        {letters.other}; <b>{SIGNS.both}</b> with a dashed frame: in both, not alike.
      </p>
      {drawn ? (
        ([0, 1] as const).map((i) => {
          const letter = i === 0 ? letters.one : letters.other;
          const here = count(i === 0 ? 'one' : 'other');
          return (
            <figure key={letter}>
              <figcaption>Wiring {letter}</figcaption>
              {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
              <section className="compare-scroll" tabIndex={0} aria-label={`Drawing of wiring ${letter}`}>
                <img
                  src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(drawn[i] ?? '')}`}
                  alt={`Wiring ${letter}: ${here} only here, ${count('both')} in both and not alike; the lists above name them.`}
                />
              </section>
            </figure>
          );
        })
      ) : (
        <p className="note" role="status">
          Both are being drawn …
        </p>
      )}
    </section>
  );
}

/** Both plans laid out; null while that is under way. */
function useScenes(one: Plan, other: Plan): readonly [Scene, Scene] | null {
  const [scenes, setScenes] = useState<readonly [Scene, Scene] | null>(null);
  useEffect(() => {
    let gone = false;
    setScenes(null);
    const lay = async (): Promise<void> => {
      const first = await sceneOf(one, undefined, () => gone);
      // The second takes over the ways of the first: what is the same lies the same.
      const second = first && (await sceneOf(other, first, () => gone));
      if (first && second && !gone) setScenes([first, second]);
    };
    void lay();
    return () => {
      gone = true;
    };
  }, [one, other]);
  return scenes;
}

function itemsOf(plan: Plan): ReadonlyMap<string, string> {
  return new Map([...viewsOf(plan)].map(([id, view]) => [id, view.item]));
}

async function sceneOf(plan: Plan, previous: Scene | undefined, isGone: () => boolean): Promise<Scene | null> {
  const steps = sceneSteps(plan, previous);
  let since = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (performance.now() - since < BREATH_MS) continue;
    await new Promise((drawn) => setTimeout(drawn));
    if (isGone()) return null;
    since = performance.now();
  }
}
