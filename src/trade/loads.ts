/** What displays, cameras and USB devices draw, A. At 5 V unless a row says otherwise. Basis per row; use wide margins for recalled rows. */
import { type Basis, demandNumber } from './basis.ts';

export type DisplaySize = '4.3' | '5' | '7' | '7-bright' | '10';

export interface DisplayFacts {
  readonly title: string;
  /** Backlight at its lowest. */
  readonly darkA: number;
  /** Full brightness, ordinary picture. */
  readonly fullA: number;
  /** Full brightness, worst picture and sample. */
  readonly worstA: number;
  readonly basis: Basis;
}

export const DISPLAYS: Record<DisplaySize, DisplayFacts> = {
  '4.3': { title: '4.3-inch touch display', darkA: 0.06, fullA: 0.24, worstA: 0.4, basis: 'read' },
  '5': { title: '5-inch touch display', darkA: 0.12, fullA: 0.33, worstA: 0.5, basis: 'common practice' },
  '7': { title: '7-inch touch display', darkA: 0.2, fullA: 0.47, worstA: 0.6, basis: 'from memory' },
  '7-bright': { title: '7-inch display, high brightness', darkA: 0.25, fullA: 0.85, worstA: 1.0, basis: 'from memory' },
  '10': { title: '10-inch touch display', darkA: 0.35, fullA: 1.1, worstA: 1.6, basis: 'from memory' },
};

/** Current of a display at a brightness of 0..1, A: linear in brightness. @throws RangeError outside 0..1. */
export function displayA(size: DisplaySize, brightness: number): number {
  demandNumber(brightness, 0, 1, 'Brightness');
  const { darkA, fullA } = DISPLAYS[size];
  return darkA + (fullA - darkA) * brightness;
}

export interface CameraFacts {
  readonly title: string;
  readonly supplyV: number;
  readonly typicalA: number;
  /** Infrared lamps on. */
  readonly nightA: number;
  readonly minV: number;
  readonly maxV: number;
  readonly basis: Basis;
}

export const CAMERAS: Record<'vehicle-12v' | 'vehicle-wide' | 'module-5v', CameraFacts> = {
  'vehicle-12v': { title: '12 V camera', supplyV: 12, typicalA: 0.15, nightA: 0.45, minV: 9, maxV: 16, basis: 'common practice' },
  'vehicle-wide': { title: '12/24 V camera', supplyV: 12, typicalA: 0.15, nightA: 0.45, minV: 9, maxV: 36, basis: 'common practice' },
  'module-5v': { title: 'Camera module', supplyV: 5, typicalA: 0.25, nightA: 0.25, minV: 4.75, maxV: 5.25, basis: 'read' },
};

export interface UsbDeviceFacts {
  readonly title: string;
  readonly idleA: number;
  readonly typicalA: number;
  readonly peakA: number;
  readonly basis: Basis;
}

/** Modem bursts: 2.5 A for 577 us every 4.6 ms at 3.8 V in the module (read); at 5 V behind its converter about 2 A. */
export const USB_DEVICES: Record<'keyboard' | 'sound' | 'positioning' | 'modem-2g' | 'modem-4g' | 'hub' | 'bus-transceiver' | 'storage', UsbDeviceFacts> = {
  keyboard: { title: 'Keyboard, mouse or radio receiver', idleA: 0.02, typicalA: 0.1, peakA: 0.1, basis: 'read' },
  sound: { title: 'Sound adapter', idleA: 0.03, typicalA: 0.06, peakA: 0.1, basis: 'from memory' },
  positioning: { title: 'Satellite positioning receiver', idleA: 0.03, typicalA: 0.045, peakA: 0.067, basis: 'from memory' },
  'modem-2g': { title: 'Modem with 2G bursts', idleA: 0.024, typicalA: 0.37, peakA: 2.0, basis: 'read' },
  'modem-4g': { title: 'Modem, 4G', idleA: 0.1, typicalA: 0.55, peakA: 1.5, basis: 'from memory' },
  hub: { title: 'Hub without devices', idleA: 0.1, typicalA: 0.1, peakA: 0.1, basis: 'from memory' },
  'bus-transceiver': { title: 'Vehicle-bus or serial adapter', idleA: 0.05, typicalA: 0.07, peakA: 0.1, basis: 'from memory' },
  storage: { title: 'Memory stick or drive', idleA: 0.1, typicalA: 0.3, peakA: 0.9, basis: 'common practice' },
};

/** USB supply rules, V and A. Source: USB 2.0 chapter 7 as summarised in connector handbooks (read); device minimum from memory. */
export const USB = {
  portMinV: 4.75,
  portMaxV: 5.25,
  /** Least at a device that takes more than 0.1 A, and at one that takes less. */
  deviceMinV: 4.5,
  lowPowerDeviceMinV: 4.4,
  unitLoadA: 0.1,
  configuredMaxA: 0.5,
  usb3MaxA: 0.9,
  cableMaxM: 5,
  usb3CableMaxM: 3,
} as const;
