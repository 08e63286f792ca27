/**
 * Reads an instrument's lines from its port until it is closed or gone. Nothing half-read is ever
 * given on: neither a line that began before the port was listened to, nor one with damaged
 * characters, nor one that the port's end cut off.
 */
import { LineSplitter } from './line-splitter.ts';
import type { PortOptions } from './port-settings.ts';
import type { SerialPortLike } from './serial-port.ts';

/** Why a line was left out. */
export type LeftOut =
  /** It was being sent when the port was opened. */
  | 'begun-before'
  /** Parity, framing or the buffer failed: the rate or the parity may be another. */
  | 'damaged'
  /** It does not end. */
  | 'overlong';

export interface LineSink {
  readonly opened: () => void;
  readonly line: (line: string) => void;
  /** What has come of a line that has not ended yet. */
  readonly pending: (text: string) => void;
  readonly leftOut: (why: LeftOut) => void;
}

export interface PortEnd {
  /** Closed by the user, or gone by itself. */
  readonly reason: 'closed' | 'lost';
  /** The half line that was left out. */
  readonly half: string;
}

/** An instrument at rest sends nothing at once: what comes sooner began before. */
const SETTLING_MS = 150;

/**
 * @param port - not open yet
 * @param signal - ends the reading when the user wants it
 * @param now - a clock in milliseconds
 * @throws what the browser throws where the port cannot be opened
 */
export async function readPort(
  port: SerialPortLike,
  options: PortOptions,
  sink: LineSink,
  signal: AbortSignal,
  now: () => number = () => performance.now(),
): Promise<PortEnd> {
  await port.open(options);
  const openedAt = now();
  sink.opened();
  const splitter = new LineSplitter();
  let silent = true;

  const take = (text: string): void => {
    // An adapter may greet with a control character; that is no line.
    if (silent && !/[^\u0000-\u0020\u007f]/.test(text)) return;
    if (silent && now() - openedAt < SETTLING_MS) {
      splitter.skip();
      sink.leftOut('begun-before');
    }
    silent = false;
    const { lines, overlong } = splitter.push(text);
    if (overlong) sink.leftOut('overlong');
    for (const line of lines) sink.line(line);
    sink.pending(splitter.pending);
  };

  let last: ReadableStream<Uint8Array> | null = null;
  try {
    while (port.readable !== null && port.readable !== last && !signal.aborted) {
      last = port.readable;
      const ended = await readStream(last, take, signal);
      // After damage the browser gives a new stream; a port that is gone gives none.
      if (ended === 'failed' && isAnother(port, last)) {
        splitter.skip();
        sink.pending('');
        sink.leftOut('damaged');
      }
    }
  } finally {
    await port.close().catch(() => undefined);
  }
  return { reason: signal.aborted ? 'closed' : 'lost', half: splitter.pending.trim() };
}

const isAnother = (port: SerialPortLike, last: ReadableStream): boolean =>
  port.readable !== null && port.readable !== last;

async function readStream(
  stream: ReadableStream<Uint8Array>,
  take: (text: string) => void,
  signal: AbortSignal,
): Promise<'ended' | 'failed'> {
  const reader = stream.getReader();
  const stop = (): void => {
    reader.cancel().catch(() => undefined);
  };
  signal.addEventListener('abort', stop);
  // One byte, one character: older instruments know no other.
  const decoder = new TextDecoder('windows-1252');
  try {
    for (;;) {
      let piece: ReadableStreamReadResult<Uint8Array>;
      try {
        piece = await reader.read();
      } catch {
        return 'failed';
      }
      if (piece.done || signal.aborted) return 'ended';
      take(decoder.decode(piece.value, { stream: true }));
    }
  } finally {
    signal.removeEventListener('abort', stop);
    reader.releaseLock();
  }
}
