/**
 * A table that scrolls sideways by itself where the window is narrow, and can be scrolled by keys;
 * its caption is heard and not seen, for a heading stands above it.
 */
import { html, nothing, type TemplateResult } from 'lit';

type Part = TemplateResult | typeof nothing;

export interface FramedTable {
  /** Says what the table holds: its caption, and the name of what scrolls. */
  readonly label: string;
  readonly id?: string;
  /** Class of the table, for its styles. */
  readonly kind?: string;
  /** Rows of the head; `headRow` makes the usual one. */
  readonly head: Part | readonly Part[];
  readonly body: Part | readonly Part[];
}

export function framedTable({ label, id, kind, head, body }: FramedTable): TemplateResult {
  return html`<div class="scroll framed" tabindex="0" role="group" aria-label=${label}>
    <table id=${id ?? nothing} class=${kind ?? nothing}>
      <caption class="visually-hidden">
        ${label}
      </caption>
      <thead>
        ${head}
      </thead>
      <tbody>
        ${body}
      </tbody>
    </table>
  </div>`;
}

/**
 * A head of one row: the columns of words, those of numbers, and what else there is.
 */
export function headRow(
  words: readonly string[],
  numbers: readonly string[] = [],
  ...more: readonly Part[]
): TemplateResult {
  return html`<tr>
    ${words.map((word) => html`<th scope="col">${word}</th>`)}
    ${numbers.map((word) => html`<th scope="col" class="number">${word}</th>`)}${more}
  </tr>`;
}
