/**
 * Where a built-in number comes from. Every datum of @wedgebook/data carries one, and the app and
 * the command show it beside the number.
 */

/** How a number is known. */
export type Known =
  /** Seen in the named source, or in a page that cites it. */
  | 'published'
  /** Computed from a stated formula; anyone can recompute it. */
  | 'derived'
  /** Common practice of the trade, with no single source. */
  | 'practice'
  /** Recalled from the literature and not seen again. */
  | 'memory';

/** The source of a built-in number and how far to trust it. */
export interface Provenance {
  /** The source in words: body or author, title, place in it. */
  readonly source: string;
  /** Keys of data/references.json; empty where there is no single source. */
  readonly references: readonly string[];
  readonly known: Known;
  /** False where the number must be shown with the mark "unverified". */
  readonly verified: boolean;
  readonly note?: string;
}
