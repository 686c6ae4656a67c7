/** Greatest current of one device at one port, A: USB 2.0 and USB 3 unit loads (summaries of the specifications, from memory). */
export const USB_PORT_A = { usb2: 0.5, usb3: 0.9 } as const;
