import { changeLines } from '../advise/changeWords.ts';
import { changesSince, isUnchanged, type Since, untold } from '../advise/since.ts';
import type { Primitive } from '../drawing/types.ts';
import { revisionsOf } from '../plan/revisionEdits.ts';
import type { Plan } from '../plan/types.ts';
import { buildScene } from '../scene/buildScene.ts';
import { changeMark, changePrimitives, faded, type Happened, happenedTo } from '../scene/changes.ts';
import type { Scene } from '../scene/types.ts';
import type { Context } from './context.ts';
import { DASH } from './figures.ts';
import { type Html, h, raw, section, table } from './markup.ts';
import { svgOf } from './svg.ts';

const WORDS: Readonly<Record<Happened, string>> = { added: 'new', changed: 'changed', removed: 'taken out' };

/** Only the parts and wires that are new or changed, for lists; what happened to each goes with it. */
export function narrowed(context: Context, since: Since): Context {
  const happened = happenedTo(since.diff);
  return {
    ...context,
    ours: context.ours.filter((v) => happened.has(v.part.id)),
    wires: context.wires.filter((w) => happened.has(w.id)),
    happened: new Map([...happened].map(([id, what]) => [id, WORDS[what]])),
  };
}

/** The drawing with what stayed the same in grey, and marks to lay over it. */
export function changedDrawing(scene: Scene, since: Since): { readonly scene: Scene; readonly over: readonly Primitive[] } {
  return { scene: faded(scene, happenedTo(since.diff)), over: changePrimitives(scene, buildScene(since.was), since.diff) };
}

/** Every change with before and after, and what the marks on the drawing mean. */
export function changesSection(context: Context, since: Since): Html {
  const { number, date, note } = since.revision;
  const title = `Changed since revision ${number}`;
  const from = h`<p>Revision ${number} is of ${date}${note === '' ? '' : `: ${note}`}.</p>`;
  const unknown = untold(since);
  const gap = unknown === null ? '' : h`<p>${unknown}</p>`;
  if (isUnchanged(since)) return section(title, h`${from}<p>Nothing that matters at the vehicle has changed since then.</p>${gap}`);
  const rows = changeLines(context.plan, since).map((line) => [
    markSvg(line.what),
    WORDS[line.what],
    h`<strong>${line.name}</strong>`,
    line.words.join('; ') || DASH,
  ]);
  return section(
    title,
    h`${from}<p>On the drawing the same marks stand at what is ${LEGEND}; what stayed the same is grey. The wire and parts lists of this print hold only what is new or changed.</p>${gap}
${table('Changes', [{ title: '', kind: 'c' }, { title: '', widthMm: 18 }, { title: 'What', widthMm: 52 }, { title: 'Before → after, or where' }], rows)}`,
  );
}

function markSvg(what: Happened, serial = 0): Html {
  return raw(
    svgOf(changeMark(what, 0, 0), { view: { x: -11, y: -11, w: 22, h: 22 }, title: WORDS[what], widthMm: 4.4, heightMm: 4.4, serial: 9000 + serial }).replace(
      '<svg ',
      '<svg class="mark" ',
    ),
  );
}

const LEGEND = h`new ${markSvg('added')}, changed ${markSvg('changed')} or taken out ${markSvg('removed')}`;

/** "2 of 2025-03-04: hold-up added; changed since" for the title block; null before the first one. */
export function revisionText(filled: Plan): string | null {
  const last = revisionsOf(filled).at(-1);
  if (!last) return null;
  const since = changesSince(filled, last.number);
  const later = since && !isUnchanged(since) ? '; changed since' : '';
  return `${last.number} of ${last.date}${last.note === '' ? '' : `: ${last.note}`}${later}`;
}
