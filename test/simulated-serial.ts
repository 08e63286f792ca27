/** A serial port without an instrument, for the tests in Node and, as text, in a browser's page. */

interface SimulatedPort {
  readable: ReadableStream<Uint8Array> | null;
  /** Options of the last opening. */
  options: unknown;
  open: (options: object) => Promise<void>;
  close: () => Promise<void>;
}

/** Stands alone: a browser test hands its source to the page. */
export function simulatedSerial() {
  let controller: ReadableStreamDefaultController<Uint8Array> | null = null;
  const stream = () =>
    new ReadableStream<Uint8Array>({
      start(given) {
        controller = given;
      },
    });
  const port: SimulatedPort = {
    readable: null,
    options: null,
    open: (options) => {
      if (port.readable !== null) return Promise.reject(new Error('the port is open already'));
      port.options = options;
      port.readable = stream();
      return Promise.resolve();
    },
    close: () => {
      port.readable = null;
      return Promise.resolve();
    },
  };
  const serial = Object.assign(new EventTarget(), {
    requestPort: () => Promise.resolve(port),
    getPorts: () => Promise.resolve([port]),
  });
  return {
    serial,
    port,
    /** Text that the instrument sends, one piece. */
    send: (text: string) => {
      controller?.enqueue(Uint8Array.from(text, (character) => character.charCodeAt(0)));
    },
    /** A fault of a few characters: the stream fails and another takes its place. */
    damage: () => {
      const failing = controller;
      port.readable = stream();
      failing?.error(new Error('parity'));
    },
    /** The plug is pulled. */
    unplug: () => {
      const failing = controller;
      port.readable = null;
      failing?.error(new Error('the device has been lost'));
      serial.dispatchEvent(new Event('disconnect'));
    },
    plugIn: () => {
      serial.dispatchEvent(new Event('connect'));
    },
  };
}
