export { partKind, partKinds } from './registry.ts';
export { dropSet, partSets, setPartSettings } from './sets.ts';
