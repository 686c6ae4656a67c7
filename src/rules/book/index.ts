import type { Example } from './types.ts';

const files = import.meta.glob<{ readonly example: Example }>('./examples/*.ts');

/** Rules that have an example, by id. */
export const exampleIds: readonly string[] = Object.keys(files).map(idOf);

/** The example of a rule, or null; fetched when it is asked for, so that the start does not carry it. */
export async function exampleOf(ruleId: string): Promise<Example | null> {
  const load = Object.entries(files).find(([path]) => idOf(path) === ruleId)?.[1];
  return load ? (await load()).example : null;
}

function idOf(path: string): string {
  return path.replace(/^.*\/|\.ts$/g, '');
}
