/** What one more trial piece would buy: in words, and the best few as a table. */
import { formatNumber } from '@wedgebook/charts';
import type { NextTrial } from '@wedgebook/core';
import { html, type TemplateResult } from 'lit';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { text } from '../text.ts';

const SHOWN = 5;

export function nextTrialTemplate(next: NextTrial): TemplateResult {
  const t = text.treatment;
  return html`<h3>${t.nextTrialTitle}</h3>
    <p class="next-trial">${t.nextTrial(next)}</p>
    <details>
      <summary>${t.nextTrialTable}</summary>
      ${framedTable({
        label: t.nextTrialTable,
        head: headRow([t.bath], [t.expectedGain, t.errorAfter]),
        body: next.trials.slice(0, SHOWN).map(
          ({ bath, expectedGain, errorAfter }) =>
            html`<tr>
              <th scope="row">${text.bath(bath.partsWater, bath.minutes, bath.celsius)}</th>
              <td class="number">×${formatNumber(expectedGain, 3)}</td>
              <td class="number">± ${formatNumber(errorAfter, 3)}</td>
            </tr>`,
        ),
      })}
      <p class="quiet small">${t.nextTrialHint}</p>
    </details>`;
}
