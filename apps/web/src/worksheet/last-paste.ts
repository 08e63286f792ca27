import type { WorkDocument } from '../state/work.ts';
import type { Cell } from './cells.ts';
import type { PastedBlock } from './parse-block.ts';

/** What was pasted last, to be taken otherwise while nothing has changed since. */
export interface LastPaste {
  readonly cell: Cell;
  readonly block: PastedBlock;
  /** The notebook as it was left. */
  readonly after: WorkDocument;
}
