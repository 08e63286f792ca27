/** What the command needs of the world outside, so that tests can stand in for it. */
export interface CommandIo {
  readonly stdout: (text: string) => void;
  readonly stderr: (text: string) => void;
  /** Pieces of a text file; `-` is standard input. */
  readonly readText: (file: string) => AsyncIterable<string>;
  /** Writes a chart or a converted file; never replaces a file of another kind. */
  readonly writeText: (file: string, text: string) => Promise<void>;
  /** Today's date, such as 2026-11-25. */
  readonly today: () => string;
}

/** What a verb hands back: shown only when all went well. */
export interface Outcome {
  /** The document of `--json`. */
  readonly json: unknown;
  /** The readable form; a function, since `--json` does without. */
  readonly text: () => string;
  /** What is said beside a file that is itself the output: on standard error. */
  readonly notes?: string;
}
