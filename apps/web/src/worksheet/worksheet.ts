/**
 * The typing sheet of one strip: a native table of fields. Arrows and Enter move, a pasted block
 * fills, and an entry that cannot be read stays as typed with a sentence beside it.
 */
import { warningText, type GridColumn, type Strip } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import { trueMinus } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { Unchanged } from '../parts/unchanged.ts';
import { AppController } from '../state/app-controller.ts';
import type { StripFit } from '../state/derive.ts';
import { cellKey, type WorkCommand } from '../state/work.ts';
import { text } from '../text.ts';
import { blockCommands, columnName } from './block-commands.ts';
import { cellCommand } from './cell-command.ts';
import {
  cellAfter,
  FIRST_CELL,
  firstOpenCell,
  nextCell,
  replicateCount,
  valueOf,
  viewCell,
  type Cell,
  type Position,
  type Typing,
} from './cells.ts';
import { placeName, type Entered } from './entered.ts';
import type { LastPaste } from './last-paste.ts';
import { BLOCK_COLUMNS, parseBlock, type PastedBlock } from './parse-block.ts';
import { baseOf, formatReading, parseNumber, parseReading } from './parse-cell.ts';
import { rememberedRoles } from './remembered-columns.ts';
import { followingExposure, offCurve } from './row-figures.ts';
import { sheetHead } from './sheet-head.ts';
import { placeKey, type SuspectCells } from './suspect-cells.ts';
import { tabletOf } from './tablet-of.ts';
import { worksheetStyles } from './worksheet.styles.ts';

/** What follows of the readings on the sheet: a figure in every row, a frame after the curve. */
interface Judged {
  readonly strip: Strip;
  readonly fit: StripFit;
  readonly cells: SuspectCells;
}

@customElement('wb-worksheet')
export class Worksheet extends LitElement {
  static override styles = [sharedStyles, worksheetStyles];

  @state() private typing: (Typing & { readonly row: number }) | null = null;
  private readonly unchanged = new Unchanged();
  @state() private lastPaste: LastPaste | null = null;
  /** Where the next reading of an instrument goes on the strip it is of. */
  private cursor: { readonly stripId: string; readonly at: Position | null } | null = null;

  private readonly app = new AppController(this, ({ document, session }, { derive }) => {
    const strip = derive.stripOf(document, session.stripId);
    return {
      strip,
      unit: session.unit,
      base: baseOf(session),
      asTyped: document.asTyped,
      tablets: document.tablets,
      pasteStands: this.lastPaste?.after === document,
    };
  });
  private readonly late = new AppController(
    this,
    ({ document, session }, { derive }): Judged | null => {
      const strip = derive.stripOf(document, session.stripId);
      if (strip === null) return null;
      const fit = derive.fit(document, strip, document.plan.curveFamily);
      return { strip, fit, cells: derive.suspectCells(document, strip, fit) };
    },
    (a, b) => a?.cells === b?.cells && a?.fit === b?.fit,
    'after-frame',
  );

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    const strip = view?.strip ?? null;
    this.unchanged.begin();
    if (view === undefined || strip === null) return nothing;
    const replicates = replicateCount(strip);
    const { value: judged } = this.late;
    const late = judged?.strip.id === strip.id ? judged : null;
    return html`
      <table
        @input=${this.onInput}
        @change=${this.onChange}
        @keydown=${this.onKey}
        @paste=${this.onPaste}
        @submit=${this.onSubmit}
        @focusin=${this.onFocus}
      >
        <caption class="visually-hidden">
          ${text.sheet.caption(strip.name)}
        </caption>
        ${sheetHead(strip.exposure.kind, view.unit, replicates)}
        <tbody>
          ${this.rowTemplate(strip, -1, replicates, late)}
          ${repeat(
            strip.rows,
            (_, index) => index,
            (_, index) => this.row(strip, index, replicates, late),
          )}
        </tbody>
      </table>
      ${
        view.pasteStands
          ? html`<button class="again" @click=${this.onAskAgain}>${text.sheet.askColumns}</button>`
          : nothing
      }
    `;
  }

  /** A row; one that nothing has changed in stays as it is on the screen. */
  private row(strip: Strip, row: number, replicates: number, judged: Judged | null) {
    const { unit, base, asTyped, tablets } = this.app.value ?? {};
    const { id, tabletId, exposure, rows } = strip;
    const typed = this.typing?.row === row ? this.typing : null;
    return this.unchanged.draw(
      row,
      // prettier-ignore
      [rows[row], rows.length, id, tabletId, exposure, tablets, unit, base, asTyped, typed, replicates, judged],
      () => this.rowTemplate(strip, row, replicates, judged),
    );
  }

  private rowTemplate(
    strip: Strip,
    row: number,
    replicates: number,
    judged: Judged | null,
  ): TemplateResult {
    const stepRow = strip.rows[row];
    const label = stepRow === undefined ? text.sheet.baseFog : text.sheet.stepNumber(stepRow.step);
    const cells = Array.from({ length: replicates }, (_, replicate) =>
      this.cellTemplate(
        strip,
        { row, column: { kind: 'density', replicate } },
        replicate + 1,
        label,
      ),
    );
    const faults = cells.flatMap(({ fault }) => (fault === null ? [] : [fault]));
    const exposure =
      row < 0
        ? null
        : this.cellTemplate(strip, { row, column: { kind: 'log-exposure' } }, 0, label);
    const exposureFault = exposure?.fault ?? null;
    if (exposureFault !== null) faults.push(exposureFault);
    const doubts = cells.flatMap(({ doubt }) => (doubt === null ? [] : [doubt]));
    return html`<tr class=${row < 0 ? 'base' : ''}>
        <th scope="row" class="step">
          <form id=${`row-${row}`}></form>
          ${stepRow?.step ?? text.sheet.baseFog}
        </th>
        ${exposure === null ? html`<td class="exposure quiet">${text.sheet.unexposed}</td>` : html`<td class="exposure">${exposure.template}</td>`}
        ${cells.map(({ template }) => html`<td>${template}</td>`)}
        <td class="off quiet">
          ${row < 0 || judged === null ? nothing : offCurve(this.app.app.store.state.document, judged, row)}
        </td>
      </tr>
      ${
        faults.length === 0 && doubts.length === 0
          ? nothing
          : html`<tr class="fault">
              <td colspan=${replicates + 3}>
                ${faults.length === 0 ? nothing : html`<div class="wrong" id=${`fault-${row}`}>${[...new Set(faults)].join(' ')}</div>`}
                ${doubts.length === 0 ? nothing : html`<div class="doubt" id=${`doubt-${row}`}>${[...new Set(doubts)].join(' ')}</div>`}
              </td>
            </tr>`
      }`;
  }

  /** Why a reading does not lie on the curve through the others, or null. */
  private doubtOf({ row, column }: Cell, judged = this.late.value): string | null {
    if (column.kind !== 'density' || judged?.strip.id !== this.app.value?.strip?.id) return null;
    const found = judged?.cells.at.get(placeKey(row, column.replicate));
    return found === undefined ? null : trueMinus(warningText(found));
  }

  private cellTemplate(
    strip: Strip,
    cell: Cell,
    column: number,
    rowLabel: string,
  ): { template: TemplateResult; fault: string | null; doubt: string | null } {
    const { unit = 'density', base = null, asTyped } = this.app.value ?? {};
    const { key, shown, fault } = viewCell(strip, cell, unit, asTyped, this.typing, base);
    const isReading = cell.column.kind === 'density';
    const name = isReading ? text.sheet.cell(rowLabel, column) : text.sheet.exposureCell(rowLabel);
    const doubt = this.doubtOf(cell);
    // The mark comes as a slip is typed; its sentence, which moves the rows below, when it stands.
    const told = this.typing?.key === key ? null : doubt;
    const faults = fault === null ? [] : [`fault-${cell.row}`];
    const describedBy = told === null ? faults : [...faults, `doubt-${cell.row}`];
    return {
      fault,
      doubt: told,
      template: html`<span class=${doubt === null ? 'cell' : 'cell doubtful'}
        ><input
          type="text"
          inputmode="decimal"
          autocomplete="off"
          spellcheck="false"
          form=${`row-${cell.row}`}
          data-row=${cell.row}
          data-column=${column}
          aria-label=${name}
          aria-invalid=${fault === null ? nothing : 'true'}
          aria-describedby=${describedBy.length === 0 ? nothing : describedBy.join(' ')}
          placeholder=${isReading ? nothing : followingExposure(this.app.app.store.state.document, strip, cell.row)}
          .value=${live(shown)}
        />${doubt === null ? nothing : html`<span class="mark" aria-hidden="true">?</span>`}</span
      >`,
    };
  }

  /**
   * Each row is a form of its own, never sent: after every keystroke the browser's form filling
   * gathers all the fields of the field's form, and of the whole page where it has none.
   */
  private readonly onSubmit = (event: Event): void => {
    event.preventDefault();
  };

  private cellAt(target: EventTarget | null): { input: HTMLInputElement; cell: Cell } | null {
    if (!(target instanceof HTMLInputElement)) return null;
    const row = Number(target.dataset['row']);
    const index = Number(target.dataset['column']);
    const column: GridColumn =
      index === 0 ? { kind: 'log-exposure' } : { kind: 'density', replicate: index - 1 };
    return { input: target, cell: { row, column } };
  }

  private readonly onInput = (event: Event): void => {
    const at = this.cellAt(event.target);
    const strip = this.app.value?.strip ?? null;
    if (at === null || strip === null) return;
    this.commit(strip, at.cell, at.input.value);
  };

  /** Leaving a cell ends its step of undo. */
  private readonly onChange = (event: Event): void => {
    this.typing = null;
    const { store } = this.app.app;
    store.endMerge();
    const at = this.cellAt(event.target);
    const doubt = at === null ? null : this.doubtOf(at.cell, this.late.now);
    if (at === null || doubt === null) return;
    this.app.say(text.sheet.doubtful(at.input.ariaLabel ?? '', doubt));
  };

  private commit(strip: Strip, cell: Cell, typed: string): void {
    const key = cellKey(strip.id, cell.row, columnName(cell.column));
    const { unit = 'density', base = null } = this.app.value ?? {};
    const parsed =
      cell.column.kind === 'density' ? parseReading(typed, unit, base) : parseNumber(typed);
    this.typing = { key, text: typed, row: cell.row };
    const mergeKey = `cell ${key}`;
    const { store } = this.app.app;
    // An entry that cannot be read is no reading: it stays as typed, and the curve does without.
    const value = parsed.status === 'read' ? parsed.value : null;
    const commands: WorkCommand[] = [
      { type: 'typed/keep', key, text: parsed.status === 'wrong' ? typed : null },
      cellCommand(strip, cell, value),
    ];
    store.dispatch({ type: 'several', commands, mergeKey });
  }

  private readonly onKey = (event: KeyboardEvent): void => {
    const at = this.cellAt(event.target);
    const strip = this.app.value?.strip ?? null;
    if (at === null || strip === null || event.altKey) return;
    const leaves = event.key === 'Escape' ? 'rack' : event.key === 'Enter' ? 'next-strip' : null;
    if (leaves === 'rack' || (leaves !== null && (event.ctrlKey || event.metaKey))) {
      event.preventDefault();
      this.dispatchEvent(new CustomEvent('wb-leave', { detail: leaves }));
      return;
    }
    if (event.ctrlKey || event.metaKey) return;
    const { input } = at;
    const all = input.selectionStart === 0 && input.selectionEnd === input.value.length;
    const caret = {
      atStart: input.selectionEnd === 0 || all,
      atEnd: input.selectionStart === input.value.length || all,
    };
    const from = { row: Number(input.dataset['row']), column: Number(input.dataset['column']) };
    const columns = replicateCount(strip) + 1;
    const next = nextCell(from, event.key, caret, { rows: strip.rows.length, columns });
    if (next === null) return;
    event.preventDefault();
    const column = next.row < 0 ? Math.max(1, next.column) : next.column;
    this.focusCell(next.row, column);
  };

  /** Puts the cursor into a cell; column 0 is the log exposure. */
  focusCell(row: number, column: number): void {
    const selector = `input[data-row="${row}"][data-column="${column}"]`;
    this.renderRoot.querySelector<HTMLInputElement>(selector)?.focus();
  }

  /** Focus selects the cell, so that typing replaces it and arrows leave it. */
  private readonly onFocus = (event: FocusEvent): void => {
    if (!(event.target instanceof HTMLInputElement)) return;
    event.target.select();
    const { row, column } = event.target.dataset;
    if (Number(column) > 0) this.moveCursor({ row: Number(row), column: Number(column) });
  };

  private moveCursor(at: Position | null): void {
    const stripId = this.app.value?.strip?.id;
    if (stripId === undefined) return;
    this.cursor = { stripId, at };
    this.dispatchEvent(new CustomEvent('wb-cursor'));
  }

  /** The cell for the next reading: where the user went last, or the first open one. */
  private nextPosition(strip: Strip): Position | null {
    const { cursor } = this;
    if (cursor?.stripId !== strip.id) return firstOpenCell(strip);
    const { at } = cursor;
    if (at === null) return null;
    const there = at.row < strip.rows.length && at.column <= replicateCount(strip);
    return there ? at : firstOpenCell(strip);
  }

  /** Name of the cell that an instrument's next reading goes to; null where there is none. */
  get nextPlace(): string | null {
    const strip = this.app.value?.strip ?? null;
    return strip === null ? null : placeName(strip, this.nextPosition(strip));
  }

  /** Enters a reading that an instrument sent, in the worksheet's unit, and goes to the next cell. */
  enterReading(typed: string): Entered {
    const view = this.app.value;
    const strip = view?.strip ?? null;
    if (view === undefined || strip === null) return { status: 'no-strip' };
    const at = this.nextPosition(strip);
    const place = placeName(strip, at);
    if (at === null || place === null) return { status: 'full' };
    const { unit, base } = view;
    const parsed = parseReading(typed, unit, base);
    if (parsed.status !== 'read') {
      return {
        status: 'wrong',
        sentence: parsed.status === 'wrong' ? parsed.sentence : text.wrong.notANumber(typed),
      };
    }
    const cell: Cell = {
      row: at.row,
      column: { kind: 'density', replicate: at.column - 1 },
    };
    const before = valueOf(strip, cell);
    this.commit(strip, cell, typed);
    this.typing = null;
    this.app.app.store.endMerge();
    const size = { rows: strip.rows.length, columns: replicateCount(strip) + 1 };
    const next = cellAfter(at, size);
    this.moveCursor(next);
    // The cursor is moved only where the user has it on the sheet already.
    if (next !== null && this.matches(':focus-within')) this.focusCell(next.row, next.column);
    return {
      status: 'entered',
      place,
      shown: formatReading(parsed.value, unit, base),
      before: before === null ? null : formatReading(before, unit, base),
      next: placeName(strip, next),
      suspect: this.doubtOf(cell, this.late.now),
    };
  }

  private readonly onPaste = (event: ClipboardEvent): void => {
    const cell = this.cellAt(event.target)?.cell;
    const pasted = event.clipboardData?.getData('text') ?? '';
    if (cell !== undefined && this.paste(pasted, cell)) event.preventDefault();
  };

  /**
   * Takes a table into the chosen strip.
   *
   * @returns false for a single entry, which the field itself takes
   */
  paste(pasted: string, cell: Cell = FIRST_CELL): boolean {
    const strip = this.app.value?.strip ?? null;
    if (strip === null) return false;
    if (pasted.trim() === '') {
      this.app.say(text.sheet.nothingPasted);
      return true;
    }
    const block = parseBlock(pasted, tabletOf(this.app.app.store.state.document, strip));
    if (block === null) return false;
    const columns = rememberedRoles('sheet', block.heads, BLOCK_COLUMNS);
    if (columns === null && !block.certain) void this.askAndTake(strip, cell, block);
    else this.take(strip, cell, { ...block, columns: columns ?? block.columns });
    return true;
  }

  /** Asks what the columns are; fetched when first needed. */
  private async askAndTake(strip: Strip, cell: Cell, block: PastedBlock): Promise<void> {
    const { askBlock } = await import('./ask-columns.ts');
    const columns = await askBlock(block);
    if (columns === null || this.app.value?.strip?.id !== strip.id) return;
    if (this.pasteStands) this.app.app.store.undo();
    this.take(this.app.value.strip, cell, { ...block, columns });
  }

  /** Whether nothing has changed since the last paste, so that it can be taken otherwise. */
  private get pasteStands(): boolean {
    return this.lastPaste?.after === this.app.app.store.state.document;
  }

  private readonly onAskAgain = (): void => {
    const { lastPaste } = this;
    const strip = this.app.value?.strip ?? null;
    if (lastPaste === null || strip === null) return;
    void this.askAndTake(strip, lastPaste.cell, lastPaste.block);
  };

  private take(strip: Strip, cell: Cell, block: PastedBlock): void {
    const { store, session } = this.app.app;
    const { row, column } = cell;
    const target = {
      row: Math.max(0, row),
      replicate: 'replicate' in column ? column.replicate : 0,
    };
    const tablet = tabletOf(store.state.document, strip);
    const { unit } = session.value;
    const result = blockCommands(strip, block, target, unit, baseOf(session.value), tablet);
    this.typing = null;
    store.dispatch(result.command);
    store.endMerge();
    this.lastPaste = { cell, block, after: store.state.document };
    this.app.say(text.sheet.pasted(result, block));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-worksheet': Worksheet;
  }
}
