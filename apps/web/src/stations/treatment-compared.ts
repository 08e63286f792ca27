/** Which laws and families the trials tell apart, in words and as a table. */
import { formatNumber } from '@wedgebook/charts';
import type { ComparedModel, GainLawFamily, ResponseFamily, TreatmentModel } from '@wedgebook/core';
import { html, nothing, type TemplateResult } from 'lit';
import { text } from '../text.ts';

export function comparedTemplate(model: TreatmentModel): TemplateResult {
  const t = text.compared;
  const { law, doseResponse } = model;
  if (model.origin === 'default') return html`<p class="quiet">${t.nothing}</p>`;
  return html`<h4>${t.title}</h4>
    <p class="untold">${t.says(model)}</p>
    <div class="scroll" tabindex="0" role="group" aria-label=${t.table}>
      <table>
        <thead>
          <tr>
            <th scope="col">${t.kind}</th>
            <th scope="col">${t.name}</th>
            <th scope="col" class="number">${t.parameters}</th>
            <th scope="col" class="number">${t.difference}</th>
            <th scope="col" class="number">${t.weight}</th>
          </tr>
        </thead>
        <tbody>
          ${rows(law.comparison, t.law, (name) => t.laws[name as GainLawFamily])}
          ${rows(doseResponse.comparison, t.family, (name) => t.families[name as ResponseFamily])}
        </tbody>
      </table>
    </div>
    <p class="quiet small">${t.hint}</p>`;
}

function rows(
  comparison: readonly ComparedModel[],
  kind: string,
  nameOf: (name: string) => string,
): TemplateResult[] | typeof nothing {
  if (comparison.length === 0) return nothing;
  const best = Math.min(...comparison.map(({ criterion }) => criterion));
  return comparison.map(
    ({ name, freeParameters, criterion, weight }) =>
      html`<tr>
        <td>${kind}</td>
        <th scope="row">${nameOf(name)}</th>
        <td class="number">${freeParameters}</td>
        <td class="number">${formatNumber(criterion - best, 1)}</td>
        <td class="number">${formatNumber(100 * weight, 0)} %</td>
      </tr>`,
  );
}
