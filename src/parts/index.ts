export { partKind, partKinds } from './registry.ts';
export { dropSet, partSets, setPartSettings } from './sets.ts';
export { atTerminal, namedEnd } from './terminalName.ts';
