/** What the command needs of the world outside, so that tests can stand in for it. */
export interface CommandIo {
  readonly stdout: (text: string) => void;
  readonly stderr: (text: string) => void;
  /** Standard output of any length: done when there is room for more. */
  readonly write: (text: string) => Promise<void>;
  /** Keeps a long output until it may be shown, on disk where it is large. */
  readonly spool: () => Spool;
  /** The files of a directory by path, in the order of their names; null where it is none. */
  readonly filesIn: (file: string) => Promise<readonly string[] | null>;
  /** Whether two names stand for one file. */
  readonly isSameFile: (one: string, other: string) => Promise<boolean>;
  /** Pieces of a text file; `-` is standard input. */
  readonly readText: (file: string) => AsyncIterable<string>;
  /** Writes a chart or a converted file, whole or in pieces; never replaces a file of another kind. */
  readonly writeText: (file: string, text: string | AsyncIterable<string>) => Promise<void>;
  /** Today's date, such as 2026-11-25. */
  readonly today: () => string;
}

/** What a verb hands back: shown only when all went well. */
export interface Outcome {
  /** The document of `--json`. */
  readonly json: unknown;
  /** The readable form; a function, since `--json` does without. */
  readonly text: () => string;
}

/** An output made piece by piece: shown as it comes. */
export interface Streamed {
  readonly pieces: AsyncIterable<string>;
}

export interface Spool {
  readonly add: (text: string) => void;
  /** What was added, in pieces; to be read once. */
  readonly pieces: () => AsyncIterable<string>;
  /** Forgets all of it. */
  readonly drop: () => void;
}
