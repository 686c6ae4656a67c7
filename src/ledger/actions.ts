import type { Edit, Id } from '../plan/types.ts';
import type { Subject } from '../rules/types.ts';
import { app } from '../state/store.ts';

/** Apply an edit; a refusal is told to the person with its reason. Returns the reason, or null when it went in. */
export function change(edit: Edit | null): string | null {
  if (!edit) return 'Nothing to change: the plan is already like that.';
  const outcome = app.getState().apply(edit);
  if (outcome.ok) return null;
  app.getState().setNotice({ kind: 'problem', text: `Not changed: ${outcome.reason}` });
  return outcome.reason;
}

export function selectPart(id: Id): void {
  app.getState().select({ parts: [id], wires: [] });
}

export function selectWire(id: Id): void {
  app.getState().select({ parts: [], wires: [id] });
}

export function selectSubject(subject: Subject): void {
  if (subject.kind === 'part') selectPart(subject.id);
  if (subject.kind === 'wire') selectWire(subject.id);
}

/** Light up subjects on the drawing while they are pointed at from here. */
export function pointAt(subjects: readonly Subject[]): void {
  app.getState().point({
    parts: subjects.filter((s) => s.kind === 'part').map((s) => s.id),
    wires: subjects.filter((s) => s.kind === 'wire').map((s) => s.id),
  });
}

export function pointAway(): void {
  app.getState().point({ parts: [], wires: [] });
}
