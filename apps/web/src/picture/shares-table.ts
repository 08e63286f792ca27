/** The table beside the prints: paper white, near black, and the place that is pointed at. */
import { formatNumber } from '@wedgebook/charts';
import { lightnessFromDensity } from '@wedgebook/core';
import { html, type TemplateResult } from 'lit';
import { framedTable } from '../parts/framed-table.ts';
import { text } from '../text.ts';
import { picture as t } from '../text/picture.ts';
import type { Print } from './four-prints.ts';
import type { PictureFacts } from './picture-messages.ts';
import { endsOfPrint } from './print-shares.ts';

/** @param tone - of the place pointed at, or null */
export function sharesTable(
  facts: PictureFacts,
  prints: readonly Print[],
  tone: number | null,
): TemplateResult {
  return html`<h3>${t.shares}</h3>
    ${framedTable({
      label: t.shares,
      head: html`<tr>
        <th scope="col">${t.print}</th>
        <th scope="col" class="number" title=${t.whiteLong}>${t.white}</th>
        <th scope="col" class="number" title=${t.blackLong}>${t.black}</th>
        <th scope="col" class="number">${t.netDensity}</th>
        <th scope="col" class="number">${t.lightness}</th>
      </tr>`,
      body: prints.map((print) => {
        const { white, black } = endsOfPrint(print, facts.counts);
        const density = tone === null ? null : (print.netDensities[tone] ?? null);
        return html`<tr>
          <th scope="row">${t.names[print.id]}</th>
          <td class="number">${formatNumber(100 * white, 1)}</td>
          <td class="number">${formatNumber(100 * black, 1)}</td>
          <td class="number">${density === null ? text.none : formatNumber(density, 2)}</td>
          <td class="number">
            ${density === null ? text.none : formatNumber(lightnessFromDensity(density), 0)}
          </td>
        </tr>`;
      }),
    })}
    <p class="quiet small">${t.whiteLong}; ${t.blackLong}. ${t.readoutHint}</p>`;
}
