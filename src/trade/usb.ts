/** Greatest current of one device at one port, A: USB 2.0 and USB 3 unit loads (summaries of the specifications, from memory). */
export const USB_PORT_A = { usb2: 0.5, usb3: 0.9 } as const;

/**
 * Inside a USB hub: the switch and track from its 5 V to one port, ohm (0.1: power switches for ports, makers’ sheets, from
 * memory), and what such a switch gives at the most before it limits, A (0.5 A class, limits at up to 1.5 A; from memory).
 */
export const USB_HUB = { pathOhm: 0.1, portLimitA: 1.5 } as const;

/** What the ports of a hub may be made for. */
export type UsbPortClass = 'usb2' | 'usb3' | 'charging';

/**
 * What one port of a hub gives one device, A: five or six unit loads (0.1 A of USB 2.0, 0.15 A of USB 3) from a supply of its own,
 * one where it lives on its host’s port; 1.5 A is what a charging port is made for, which no hub without a supply has
 * (USB 2.0 chapter 7.2, USB 3 chapter 11.4, Battery Charging 1.2; from memory).
 */
export const USB_HUB_PORT_A: Readonly<Record<'own' | 'bus', Readonly<Record<UsbPortClass, number>>>> = {
  own: { usb2: 0.5, usb3: 0.9, charging: 1.5 },
  bus: { usb2: 0.1, usb3: 0.15, charging: 0.15 },
};
