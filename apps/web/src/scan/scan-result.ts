/** What a scan gave: the response, the densities with their errors, and what must be known of them. */
import { formatNumber } from '@wedgebook/charts';
import { html, nothing, type TemplateResult } from 'lit';
import { warningList } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { text } from '../text.ts';
import { scan as t } from '../text/scan.ts';
import type { ScanAnswer, StepAnswer } from './scan-messages.ts';

export function resultTemplate(
  answer: ScanAnswer,
  layout: SceneLayout | null,
  take: () => void,
): TemplateResult {
  if (answer.status !== 'ok') return html`<div role="alert">${warningList(answer.warnings)}</div>`;
  const { steps, form, exponent, flare, tabletScatter, lightSpan, warnings } = answer;
  const read = steps.filter(({ density }) => density !== null).length;
  const words = form === 'power' ? t.form.power(exponent) : t.form[form];
  return html`<p role="status"><b>${t.done(read, steps.length)}</b></p>
    <p>${t.response(words, flare, tabletScatter, lightSpan)}</p>
    ${warningList(warnings)}
    <div class="results">
      <div class="scroll tall" tabindex="0" role="group" aria-label=${t.table}>
        <table>
          <thead>
            <tr>
              <th scope="col">${t.step}</th>
              <th scope="col" class="number">${t.density}</th>
              <th scope="col" class="number">${t.error}</th>
              <th scope="col" class="number" title=${t.rejectedLong}>${t.rejected}</th>
            </tr>
          </thead>
          <tbody>
            ${steps.map(stepTemplate)}
          </tbody>
        </table>
      </div>
      ${layout === null ? nothing : html`<wb-chart .layout=${layout}></wb-chart>`}
    </div>
    <p class="quiet small">${t.rejected}: ${t.rejectedLong}.</p>
    <div class="actions">
      <button class="primary" ?disabled=${read === 0} @click=${take}>${t.take}</button>
    </div>`;
}

/** An error with as many decimals as show two figures of it. */
export function errorText(standardError: number): string {
  return formatNumber(standardError, standardError < 0.0095 ? 4 : 3);
}

function stepTemplate(each: StepAnswer): TemplateResult {
  const { step, density, standardError, status, rejected } = each;
  return html`<tr>
    <th scope="row">${step}</th>
    ${
      density === null
        ? html`<td colspan="2" class="number quiet">${t.status[status]}</td>`
        : html`<td class="number">${formatNumber(density, 3)}</td>
            <td class="number">
              ${standardError === null ? text.none : `± ${errorText(standardError)}`}
            </td>`
    }
    <td class="number">${formatNumber(100 * rejected, 1)}</td>
  </tr>`;
}
