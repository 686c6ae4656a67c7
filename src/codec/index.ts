/** Reading and writing plan files. Carries the schemas, so faces fetch it only when a file is opened or saved. */
export { planJsonSchema } from './jsonSchema.ts';
export type { Problem } from './problems.ts';
export { type Read, readPlan } from './read.ts';
export { SUFFIX, writePlan } from './write.ts';
