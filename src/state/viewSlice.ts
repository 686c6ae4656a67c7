import type { GetState, SetState } from './planSlice.ts';
import type { AppState } from './types.ts';

type ViewSlice = Pick<
  AppState,
  | 'selection'
  | 'select'
  | 'pointed'
  | 'point'
  | 'keyPosition'
  | 'setKey'
  | 'band'
  | 'setBand'
  | 'pressed'
  | 'press'
  | 'letGo'
  | 'momentary'
  | 'showFigures'
  | 'setShowFigures'
  | 'theme'
  | 'setTheme'
  | 'units'
  | 'setUnits'
  | 'book'
  | 'setBook'
  | 'comparing'
  | 'setComparing'
  | 'placing'
  | 'setPlacing'
  | 'wiringFrom'
  | 'setWiringFrom'
  | 'notice'
  | 'setNotice'
  | 'camera'
  | 'setCamera'
  | 'scene'
  | 'setScene'
>;

/** Key and supply under which a plan is first shown. */
export const FIRST_LOOK = { keyPosition: 'Running', band: 'typical' } as const satisfies Partial<AppState>;

/** What the person looks at and has in hand; none of it is part of the plan or of undo. */
export function viewSlice(set: SetState, get: GetState): ViewSlice {
  return {
    selection: { parts: [], wires: [] },
    select: (selection) => set({ selection }),
    pointed: { parts: [], wires: [] },
    point: (pointed) => set({ pointed }),
    ...FIRST_LOOK,
    setKey: (keyPosition) => set({ keyPosition }),
    setBand: (band) => set({ band }),
    pressed: [],
    press: (button) => {
      const { pressed } = get();
      set({ pressed: pressed.includes(button) ? pressed.filter((id) => id !== button) : [...pressed, button] });
    },
    letGo: () => {
      if (get().pressed.length > 0) set({ pressed: [] });
    },
    momentary: null,
    showFigures: true,
    setShowFigures: (showFigures) => set({ showFigures }),
    theme: 'light',
    setTheme: (theme) => set({ theme }),
    units: { area: 'mm2', length: 'm' },
    setUnits: (units) => set({ units }),
    book: null,
    setBook: (book) => set({ book }),
    comparing: null,
    setComparing: (comparing) => set({ comparing }),
    placing: null,
    // One thing in the hand at a time.
    setPlacing: (placing) => set(placing ? { placing, wiringFrom: null } : { placing }),
    wiringFrom: null,
    setWiringFrom: (wiringFrom) => set(wiringFrom ? { wiringFrom, placing: null } : { wiringFrom }),
    notice: null,
    setNotice: (notice) => set({ notice }),
    camera: { x: 0, y: 0, zoom: 1 },
    setCamera: (camera) => set({ camera }),
    scene: null,
    setScene: (scene) => set({ scene }),
  };
}
