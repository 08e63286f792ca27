/**
 * The typing sheet of one strip: a native table of fields. Arrows and Enter move, a pasted block
 * fills, and an entry that cannot be read stays as typed with a sentence beside it.
 */
import { densityAt } from '@wedgebook/core';
import { formatSigned } from '@wedgebook/charts';
import { rowLogExposure, tabletLookup, type GridColumn, type Strip } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import type { StripFit } from '../state/derive.ts';
import { cellKey, type WorkCommand } from '../state/work.ts';
import { text } from '../text.ts';
import { blockCommands, columnName } from './block-commands.ts';
import { nextCell, replicateCount, viewCell, type Cell, type Typing } from './cells.ts';
import { parseBlock } from './parse-block.ts';
import { baseOf, parseNumber, parseReading, shortest } from './parse-cell.ts';
import { worksheetStyles } from './worksheet.styles.ts';

@customElement('wb-worksheet')
export class Worksheet extends LitElement {
  static override styles = [sharedStyles, worksheetStyles];

  @state() private typing: Typing | null = null;

  private readonly app = new AppController(this, ({ document, session }, { derive }) => {
    const strip = derive.stripOf(document, session.stripId);
    return {
      strip,
      unit: session.unit,
      base: baseOf(session),
      asTyped: document.asTyped,
      tablets: document.tablets,
      fit: strip === null ? null : derive.fit(document, strip, document.plan.curveFamily),
    };
  });

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    const strip = view?.strip ?? null;
    if (view === undefined || strip === null) return nothing;
    const replicates = replicateCount(strip);
    const headings = Array.from({ length: replicates }, (_, i) => text.sheet.reading(i + 1));
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
        <thead>
          <tr>
            <th scope="col" class="step">${text.sheet.step}</th>
            <th scope="col" class="exposure">${this.exposureHead(strip)}</th>
            ${headings.map((heading) => html`<th scope="col">${heading}<br /><span>${text.units[view.unit]}</span></th>`)}
            <th scope="col" class="off">
              <span class="visually-hidden">${text.sheet.offLong}</span>
              <span aria-hidden="true">${text.sheet.off}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          ${this.rowTemplate(strip, -1, replicates, view.fit)}
          ${repeat(
            strip.rows,
            (_, index) => index,
            (_, index) => this.rowTemplate(strip, index, replicates, view.fit),
          )}
        </tbody>
      </table>
    `;
  }

  private exposureHead(strip: Strip): TemplateResult {
    return html`${text.sheet.exposure}<br /><span
        >${text.sheet.exposureUnit[strip.exposure.kind]}</span
      >`;
  }

  private rowTemplate(
    strip: Strip,
    row: number,
    replicates: number,
    fit: StripFit | null,
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
    return html`<tr class=${row < 0 ? 'base' : ''}>
        <th scope="row" class="step">
          <form id=${`row-${row}`}></form>
          ${stepRow?.step ?? text.sheet.baseFog}
        </th>
        ${exposure === null ? html`<td class="exposure quiet">${text.sheet.unexposed}</td>` : html`<td class="exposure">${exposure.template}</td>`}
        ${cells.map(({ template }) => html`<td>${template}</td>`)}
        <td class="off quiet">${row < 0 ? nothing : this.off(strip, row, fit)}</td>
      </tr>
      ${
        faults.length === 0
          ? nothing
          : html`<tr class="fault">
              <td colspan=${replicates + 3}>
                <div class="wrong" id=${`fault-${row}`}>${[...new Set(faults)].join(' ')}</div>
              </td>
            </tr>`
      }`;
  }

  private cellTemplate(
    strip: Strip,
    cell: Cell,
    column: number,
    rowLabel: string,
  ): { template: TemplateResult; fault: string | null } {
    const { unit = 'density', base = null, asTyped } = this.app.value ?? {};
    const { shown, fault } = viewCell(strip, cell, unit, asTyped, this.typing, base);
    const isReading = cell.column.kind === 'density';
    const name = isReading ? text.sheet.cell(rowLabel, column) : text.sheet.exposureCell(rowLabel);
    return {
      fault,
      template: html`<input
        type="text"
        inputmode="decimal"
        autocomplete="off"
        spellcheck="false"
        form=${`row-${cell.row}`}
        data-row=${cell.row}
        data-column=${column}
        aria-label=${name}
        aria-invalid=${fault === null ? nothing : 'true'}
        aria-describedby=${fault === null ? nothing : `fault-${cell.row}`}
        placeholder=${isReading ? nothing : this.exposureOf(strip, cell.row)}
        .value=${live(shown)}
      />`,
    };
  }

  /** Log exposure that follows from the tablet, shown where the row has none of its own. */
  private exposureOf(strip: Strip, row: number): string {
    const at = strip.rows[row];
    const tablets = this.app.value?.tablets ?? [];
    if (at === undefined) return '';
    const lookup = tabletLookup({ ...this.app.app.store.state.document, tablets });
    const logExposure = rowLogExposure({ ...at, logExposure: null }, strip, lookup);
    return logExposure === null ? text.none : shortest(logExposure, 3, 3);
  }

  /** Mean reading less the curve. */
  private off(strip: Strip, row: number, fit: StripFit | null): string {
    const read = (strip.rows[row]?.densities ?? []).filter((density) => density !== null);
    const at = strip.rows[row];
    const curve = fit?.curve ?? null;
    if (curve === null || at === undefined || read.length === 0) return '';
    const lookup = tabletLookup(this.app.app.store.state.document);
    const logExposure = rowLogExposure(at, strip, lookup);
    if (logExposure === null) return '';
    const mean = read.reduce((sum, density) => sum + density, 0) / read.length;
    return formatSigned(mean - densityAt(curve, logExposure), 3);
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
  private readonly onChange = (): void => {
    this.typing = null;
    this.app.app.store.endMerge();
  };

  private commit(strip: Strip, cell: Cell, typed: string): void {
    const key = cellKey(strip.id, cell.row, columnName(cell.column));
    const { unit = 'density', base = null } = this.app.value ?? {};
    const parsed =
      cell.column.kind === 'density' ? parseReading(typed, unit, base) : parseNumber(typed);
    this.typing = { key, text: typed };
    const mergeKey = `cell ${key}`;
    const { store } = this.app.app;
    // An entry that cannot be read is no reading: it stays as typed, and the curve does without.
    const value = parsed.status === 'read' ? parsed.value : null;
    const commands: WorkCommand[] = [
      { type: 'typed/keep', key, text: parsed.status === 'wrong' ? typed : null },
      cell.row < 0
        ? this.baseFogCommand(strip, cell.column, value)
        : { type: 'rows/set-cell', stripId: strip.id, row: cell.row, column: cell.column, value },
    ];
    store.dispatch({ type: 'several', commands, mergeKey });
  }

  private baseFogCommand(strip: Strip, column: GridColumn, value: number | null): WorkCommand {
    const replicate = column.kind === 'density' ? column.replicate : 0;
    const densities: (number | null)[] = [...strip.unexposedDensities];
    if (replicate < densities.length) densities[replicate] = value;
    else if (value !== null) densities.push(value);
    const unexposedDensities = densities.filter((density) => density !== null);
    return { type: 'strip/change', id: strip.id, changes: { unexposedDensities } };
  }

  private readonly onKey = (event: KeyboardEvent): void => {
    const at = this.cellAt(event.target);
    const strip = this.app.value?.strip ?? null;
    if (at === null || strip === null || event.ctrlKey || event.metaKey || event.altKey) return;
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
    if (event.target instanceof HTMLInputElement) event.target.select();
  };

  private readonly onPaste = (event: ClipboardEvent): void => {
    const at = this.cellAt(event.target);
    const view = this.app.value;
    const pasted = event.clipboardData?.getData('text') ?? '';
    const strip = view?.strip ?? null;
    if (at === null || strip === null) return;
    const { document } = this.app.app.store.state;
    const { tabletId } = strip;
    const tablet = tabletId === null ? null : tabletLookup(document)(tabletId);
    const block = parseBlock(pasted, tablet);
    if (block === null) return;
    event.preventDefault();
    this.take(strip, at.cell, block);
  };

  private take(strip: Strip, cell: Cell, block: NonNullable<ReturnType<typeof parseBlock>>): void {
    const { store, session } = this.app.app;
    const replicate = cell.column.kind === 'density' ? cell.column.replicate : 0;
    const target = { row: Math.max(0, cell.row), replicate };
    const result = blockCommands(strip, block, target, session.value.unit, baseOf(session.value));
    this.typing = null;
    store.dispatch(result.command);
    store.endMerge();
    session.set({ announcement: text.sheet.pasted(result, block) });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-worksheet': Worksheet;
  }
}
