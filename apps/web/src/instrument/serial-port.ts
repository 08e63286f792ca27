/**
 * The part of the browser's serial ports that is used here; TypeScript's library does not describe
 * them, for not every browser has them.
 */
import type { PortOptions } from './port-settings.ts';

export interface SerialPortLike {
  /** A new stream after a fault of a few characters; null once the port is gone or closed. */
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly open: (options: PortOptions) => Promise<void>;
  readonly close: () => Promise<void>;
}

export interface SerialLike extends EventTarget {
  /** Asks the user; rejects with a `NotFoundError` where none is chosen. */
  readonly requestPort: () => Promise<SerialPortLike>;
  /** Ports that the user allowed before and that are plugged in. */
  readonly getPorts: () => Promise<SerialPortLike[]>;
}

/** @returns the browser's serial ports, or null where it has none or bars them */
export function serialOf(browser: object): SerialLike | null {
  return 'serial' in browser ? ((browser.serial as SerialLike | undefined) ?? null) : null;
}
