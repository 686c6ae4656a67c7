/** Words that every room shares: vehicle states, bands, lines, zone kinds, colour letters. */

/** Base nine states; the five after them exist only in vehicles that have the attribute. */
export type VehicleState =
  | 'ISOLATED'
  | 'OFF_ASLEEP'
  | 'OFF_AWAKE'
  | 'ACC'
  | 'RUN_STOPPED'
  | 'START'
  | 'RUN_CHARGING'
  | 'RETAIN'
  | 'RETAIN_DOOR'
  | 'AUTO_STOP'
  | 'AUTO_CRANK'
  | 'REMOTE_RUN'
  | 'PARKED_CHARGE'
  | 'ISOLATED_RUNNING';

export type Band = 'low' | 'typical' | 'high';

/** Terminal lines of DIN 72552 and their kin that a feed may tap; `75r` = retained accessory. */
export type Line = '30' | '15' | '75' | '75r' | '50' | '58' | 'reverse' | '31';

export type ZoneKind = 'engine-bay' | 'dash' | 'dash-top' | 'under-seat' | 'console' | 'roof' | 'load-bay' | 'desk' | 'outside';

/** Cranking dip levels of ISO 16750-2. */
export type DipLevel = 'I' | 'II' | 'III' | 'IV';

/** Insulation colours by the letters of IEC 60757 (`BK` black, `RD` red, `VT` violet ...). */
export type ColourCode = 'BK' | 'BN' | 'RD' | 'OG' | 'YE' | 'GN' | 'BU' | 'VT' | 'GY' | 'WH' | 'PK' | 'TQ';
