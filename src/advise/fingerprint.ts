import type { Plan } from '../plan/types.ts';

/** Beginning of the ticks that say what was kept on paper or in a file. */
export const KEEP = 'keep:';

/** Eight characters that change when a text does: a tick that carries them lapses with the next change (FNV-1a). */
export function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}

/** Of all that the wiring sheet prints; ticks and stage do not make a sheet old. Takes the plan with its automatic values. */
export function sheetPrint(filled: Plan): string {
  const { ticks: _ticks, stage: _stage, nextSerial: _next, given: _given, ...rest } = filled;
  return fingerprint(JSON.stringify(rest, (key, value: unknown) => (key === 'fitted' ? undefined : value)));
}

/** Of all that a file holds, save the ticks about papers and files themselves, the stage, and numbers given in other wirings. */
export function filePrint(plan: Plan): string {
  const { ticks, stage: _stage, given: _given, ...rest } = plan;
  return fingerprint(
    JSON.stringify([
      rest,
      Object.keys(ticks ?? {})
        .filter((key) => !key.startsWith(KEEP))
        .sort(),
    ]),
  );
}
