/** Greatest current of one device at one port, A: USB 2.0 and USB 3 unit loads (summaries of the specifications, from memory). */
export const USB_PORT_A = { usb2: 0.5, usb3: 0.9 } as const;

/**
 * Inside a USB hub: the switch and track from its 5 V to one port, ohm (0.1: power switches for ports, makers’ sheets, from
 * memory), and what such a switch gives at the most before it limits, A (0.5 A class, limits at up to 1.5 A; from memory).
 */
export const USB_HUB = { pathOhm: 0.1, portLimitA: 1.5 } as const;
