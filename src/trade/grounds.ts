/** Places people ground to: what each is worth as a way back for current. */
export interface GroundPlace {
  readonly label: string;
  /** Resistance to the body, ohm (common practice, no source). */
  readonly ohm: number;
  /** How bad a ground wire there is, and why, as the rest of "It is ..."; absent = a place made for it. */
  readonly unfit?: { readonly level: 'hazard' | 'fault'; readonly why: string };
}

/**
 * Restraint, steering, fuel and brake parts: vehicle makers' instructions forbid any work on their fixings (from memory).
 * Paint, hinges and trim screws: fitters' practice.
 */
export const GROUND_PLACES = {
  'radio-ground': { label: "radio plug's ground lead", ohm: 0.002 },
  'dash-stud': { label: 'ground stud behind the dash', ohm: 0.002 },
  'body-stud': { label: 'ground stud of the body', ohm: 0.002 },
  'strapped-cab': { label: 'cab with a strap of its own to the frame', ohm: 0.005 },
  'painted-bolt': {
    label: 'bolt on painted metal',
    ohm: 0.08,
    unfit: { level: 'fault', why: 'paint lies between the ring and the metal, so the joint gets worse with every winter' },
  },
  'trim-screw': { label: 'trim screw', ohm: 0.05, unfit: { level: 'fault', why: 'it bites into thin sheet or plastic and works loose' } },
  'seat-belt-bolt': {
    label: 'seat belt bolt',
    ohm: 0.02,
    unfit: { level: 'hazard', why: 'it holds a person in a crash, and a ring under its head takes from its grip' },
  },
  'seat-frame-bolt': {
    label: 'seat frame bolt',
    ohm: 0.02,
    unfit: { level: 'hazard', why: 'it holds the seat in a crash, and belt tensioners hang on that frame' },
  },
  hinge: { label: 'metal behind a hinge', ohm: 0.4 },
  'steering-column': {
    label: 'steering column',
    ohm: 0.2,
    unfit: { level: 'hazard', why: 'its bearings would carry the current, and the airbag is wired along it' },
  },
  'fuel-or-brake-pipe': { label: 'fuel or brake pipe', ohm: 0.1, unfit: { level: 'hazard', why: 'current eats thin pipe, and a spark meets fuel' } },
} as const satisfies Readonly<Record<string, GroundPlace>>;

export type GroundPlaceId = keyof typeof GROUND_PLACES;

/** What a place is, or null for a word that names none. */
export function groundPlace(id: string): GroundPlace | null {
  return Object.hasOwn(GROUND_PLACES, id) ? GROUND_PLACES[id as GroundPlaceId] : null;
}

/** A ground for a zone's wires that the vehicle's maker meant as one. */
export function isFitGround(id: string): boolean {
  const place = groundPlace(id);
  return place !== null && place.unfit === undefined && id !== 'hinge';
}

/** Metal case or shell on a bracket of the body, ohm (common practice, no source). */
export const CASE_OHM = 0.01;

/** A ground that lifts by more than this under load falsifies what is measured against it, V (fitters' habit; a quarter of it is the aim at bring-up). */
export const GROUND_LIFT_V = 0.1;

/** More than this through a bearing is load current and pits it, A (judgement of the house). */
export const BEARING_A = 0.1;
/** Strap across a hinge or a tilting cab, mm² (fitters' habit). */
export const STRAP_MM2 = 16;

/** Currents through screens of picture, data and sound leads, A (practice; AWG 28 screens are made for milliamps). */
export const SCREEN = {
  /** A device whose only way home is a screen: more than this is no signal any more. */
  soleA: 0.2,
  /** With every joint sound, at the most. */
  sharedA: 0.5,
  /** The same as a share of what its device draws, for devices above `bigA`. */
  share: 0.3,
  bigA: 1,
} as const;
