import { z } from 'zod';
import { partKinds } from '../parts/index.ts';
import { planSchema } from './schema.ts';

/**
 * JSON Schema (draft 2020-12) of a plan file, for editors and programs that write plans: every part kind with its
 * terminals (`x-terminals`, with default settings) and its settings with unit, limits, default and basis.
 */
export function planJsonSchema(): Readonly<Record<string, unknown>> {
  return z.toJSONSchema(planSchema([...partKinds.values()])) as Readonly<Record<string, unknown>>;
}
