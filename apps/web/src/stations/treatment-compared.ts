/** Which laws and families the trials tell apart, in words and as a table. */
import { formatNumber } from '@wedgebook/charts';
import type { ComparedModel, GainLawFamily, ResponseFamily, TreatmentModel } from '@wedgebook/core';
import { html, type TemplateResult } from 'lit';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { text } from '../text.ts';

export function comparedTemplate(model: TreatmentModel): TemplateResult {
  const t = text.compared;
  const { law, doseResponse } = model;
  if (model.origin === 'default') return html`<p class="quiet">${t.nothing}</p>`;
  return html`<h4>${t.title}</h4>
    <p class="untold">${t.says(model)}</p>
    ${framedTable({
      label: t.table,
      head: headRow([t.kind, t.name], [t.parameters, t.difference, t.weight]),
      body: [
        ...rows(law.comparison, t.law, (name) => t.laws[name as GainLawFamily]),
        ...rows(doseResponse.comparison, t.family, (name) => t.families[name as ResponseFamily]),
      ],
    })}
    <p class="quiet small">${t.hint}</p>`;
}

function rows(
  comparison: readonly ComparedModel[],
  kind: string,
  nameOf: (name: string) => string,
): TemplateResult[] {
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
