/**
 * Every change to a notebook, as plain JSON. A command carries all that it needs, new ids
 * included, so that the same command gives the same document again.
 */
import type {
  Developer,
  DevelopmentPlan,
  Film,
  Negative,
  Note,
  NotebookDocument,
  Paper,
  Plan,
  Print,
  Printing,
  Spot,
  Strip,
  StripRow,
  Tablet,
  WorkingBath,
} from './document.ts';

type Changes<T> = Readonly<Partial<Omit<T, 'id'>>>;

/** The lists, by the name of one member. */
export interface EntryTypes {
  readonly tablet: Tablet;
  readonly developer: Developer;
  readonly film: Film;
  readonly strip: Strip;
  readonly paper: Paper;
  readonly negative: Negative;
  readonly bath: WorkingBath;
  readonly print: Print;
  readonly note: Note;
}
export type EntryKind = keyof EntryTypes;

/** `film/add`, `strip/change`, `paper/remove`, ...: the same four for every list. */
export type EntryCommand = {
  readonly [K in EntryKind]:
    | { readonly type: `${K}/add`; readonly entry: EntryTypes[K]; readonly index?: number }
    | {
        readonly type: `${K}/change`;
        readonly id: string;
        readonly changes: Changes<EntryTypes[K]>;
      }
    | { readonly type: `${K}/move`; readonly id: string; readonly index: number }
    | { readonly type: `${K}/remove`; readonly id: string };
}[EntryKind];

/** The columns of the typing grid, from left to right; replicates are numbered from 0. */
export type GridColumn =
  | { readonly kind: 'step' }
  | { readonly kind: 'log-exposure' }
  | { readonly kind: 'density'; readonly replicate: number };

/** Changes to the rows of one strip. `row` is an index from 0; `stripId` names the strip. */
export type RowCommand =
  /** One cell. A row that is not there yet is added, with the unread rows between. */
  | {
      readonly type: 'rows/set-cell';
      readonly stripId: string;
      readonly row: number;
      readonly column: GridColumn;
      readonly value: number | null;
    }
  /** All replicate readings of one row. */
  | {
      readonly type: 'rows/set-replicates';
      readonly stripId: string;
      readonly row: number;
      readonly densities: readonly (number | null)[];
    }
  /**
   * A pasted rectangle, its upper left corner at `row`, `column`; columns go on in the order
   * step, log exposure, densities. Cells outside the grid make it grow; undefined cells of a
   * ragged block leave what is there.
   */
  | {
      readonly type: 'rows/paste';
      readonly stripId: string;
      readonly row: number;
      readonly column: GridColumn;
      readonly block: readonly (readonly (number | null)[])[];
    }
  | {
      readonly type: 'rows/insert';
      readonly stripId: string;
      readonly row: number;
      readonly rows: readonly StripRow[];
    }
  | {
      readonly type: 'rows/remove';
      readonly stripId: string;
      readonly row: number;
      readonly count: number;
    }
  /** Turns the readings end for end, the step numbers staying where they are. */
  | { readonly type: 'rows/reverse-readings'; readonly stripId: string };

export type SpotCommand =
  | {
      readonly type: 'spot/add';
      readonly negativeId: string;
      readonly spot: Spot;
      readonly index?: number;
    }
  | {
      readonly type: 'spot/change';
      readonly negativeId: string;
      readonly id: string;
      readonly changes: Changes<Spot>;
    }
  | { readonly type: 'spot/remove'; readonly negativeId: string; readonly id: string };

export type DocumentCommand =
  | { readonly type: 'document/load'; readonly document: NotebookDocument }
  | {
      readonly type: 'document/describe';
      readonly changes: Readonly<Partial<Pick<NotebookDocument, 'title' | 'note' | 'invented'>>>;
    }
  | { readonly type: 'plan/set'; readonly changes: Readonly<Partial<Plan>> }
  | {
      readonly type: 'developmentPlan/set';
      readonly changes: Readonly<Partial<DevelopmentPlan>>;
    }
  | { readonly type: 'printing/set'; readonly changes: Readonly<Partial<Printing>> };

/**
 * A change to the notebook. Commands in a row with the same `mergeKey` are one step of undo: the
 * typing in one cell, one drag of a slider.
 */
export type Command = (DocumentCommand | EntryCommand | RowCommand | SpotCommand) & {
  readonly mergeKey?: string;
};
