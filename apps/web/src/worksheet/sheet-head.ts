import type { Strip } from '@wedgebook/notebook';
import { html, type TemplateResult } from 'lit';
import type { ReadingUnit } from '../state/app.ts';
import { text } from '../text.ts';

/** The heads of the typing sheet's columns. */
export function sheetHead(
  kind: Strip['exposure']['kind'],
  unit: ReadingUnit,
  replicates: number,
): TemplateResult {
  const headings = Array.from({ length: replicates }, (_, i) => text.sheet.reading(i + 1));
  return html`<thead>
    <tr>
      <th scope="col" class="step">${text.sheet.step}</th>
      <th scope="col" class="exposure">
        ${text.sheet.exposure}<br /><span>${text.sheet.exposureUnit[kind]}</span>
      </th>
      ${headings.map((heading) => html`<th scope="col">${heading}<br /><span>${text.units[unit]}</span></th>`)}
      <th scope="col" class="off">
        <span class="visually-hidden">${text.sheet.offLong}</span>
        <span aria-hidden="true">${text.sheet.off}</span>
      </th>
    </tr>
  </thead>`;
}
