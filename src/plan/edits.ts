/** Every way to change a plan: pure functions that return an edit, which `apply` turns into the next plan. */
export { type Arranged, alignParts, distributeParts, type Line, type Size, type Sizes, type Way } from './arrange.ts';
export { setAside, setHead, setThreshold, setVehicle } from './headEdits.ts';
export { setFitted, setStage, setTicks } from './jobEdits.ts';
export {
  addPart,
  addParts,
  type Fragment,
  type Move,
  movePart,
  moveParts,
  removeItems,
  renamePart,
  setPart,
  setSetting,
  setSettings,
  turnParts,
} from './partEdits.ts';
export { makeRevision, type Revised, revisionsOf, thinRevision } from './revisionEdits.ts';
export { fresh, GRID, linked, type NewPart, nameOf, snap, type WireExtras } from './rows.ts';
export { replacePart, swapEnds } from './swapReplace.ts';
export { addWire, type Cut, setWire, spliceWire, splitWire, type WirePatch } from './wireEdits.ts';
export { addZone, moveZone, removeRun, removeZone, setMoving, setRun, setZone, type ZonePatch, zoneOrder } from './zoneEdits.ts';
