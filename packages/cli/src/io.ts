/** What the command needs of the world outside, so that tests can stand in for it. */
export interface CommandIo {
  readonly stdout: (text: string) => void;
  readonly stderr: (text: string) => void;
  /** Pieces of a text file; `-` is standard input. */
  readonly readText: (file: string) => AsyncIterable<string>;
  /** Writes a chart or a converted file; never replaces a file of another kind. */
  readonly writeText: (file: string, text: string) => Promise<void>;
}

/** What a verb hands back: shown only when all went well. */
export interface Outcome {
  /** The document of `--json`. */
  readonly json: unknown;
  /** The readable form; a function, since `--json` does without. */
  readonly text: () => string;
}
