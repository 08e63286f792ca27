/** What one more trial piece would buy: in words, and the best few as a table. */
import { formatNumber } from '@wedgebook/charts';
import type { NextTrial } from '@wedgebook/core';
import { html, type TemplateResult } from 'lit';
import { text } from '../text.ts';

const SHOWN = 5;

export function nextTrialTemplate(next: NextTrial): TemplateResult {
  const t = text.treatment;
  return html`<h3>${t.nextTrialTitle}</h3>
    <p class="next-trial">${t.nextTrial(next)}</p>
    <details>
      <summary>${t.nextTrialTable}</summary>
      <div class="scroll" tabindex="0" role="group" aria-label=${t.nextTrialTable}>
        <table>
          <thead>
            <tr>
              <th scope="col">${t.bath}</th>
              <th scope="col" class="number">${t.expectedGain}</th>
              <th scope="col" class="number">${t.errorAfter}</th>
            </tr>
          </thead>
          <tbody>
            ${next.trials.slice(0, SHOWN).map(
              ({ bath, expectedGain, errorAfter }) =>
                html`<tr>
                  <th scope="row">${text.bath(bath.partsWater, bath.minutes, bath.celsius)}</th>
                  <td class="number">×${formatNumber(expectedGain, 3)}</td>
                  <td class="number">± ${formatNumber(errorAfter, 3)}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <p class="quiet small">${t.nextTrialHint}</p>
    </details>`;
}
