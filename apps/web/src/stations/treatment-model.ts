/** What is known of the bath: each parameter with its source, and the trials behind it. */
import type { TreatmentModel } from '@wedgebook/core';
import { seleniumDefaults } from '@wedgebook/data';
import { html, type TemplateResult } from 'lit';
import { estimate, sourceMark } from '../parts/notices.ts';
import { text } from '../text.ts';
import { comparedTemplate } from './treatment-compared.ts';

const NAMES = [
  'maximumGain',
  'halfDose',
  'concentrationExponent',
  'temperatureCoefficient',
] as const;

export function modelTemplate(model: TreatmentModel): TemplateResult {
  const t = text.treatment;
  const { parameters } = seleniumDefaults;
  const { doseResponse } = model;
  return html`<details>
    <summary>${t.modelTitle(model)}</summary>
    <p>${t.law(model.law)}</p>
    <div class="scroll" tabindex="0" role="group" aria-label=${t.modelTable}>
      <table>
        <thead>
          <tr>
            <th scope="col">${t.parameter}</th>
            <th scope="col" class="number">${t.value}</th>
            <th scope="col">${t.origin}</th>
          </tr>
        </thead>
        <tbody>
          ${NAMES.map((name) => {
            const { unit, provenance } = parameters[name];
            const fitted = doseResponse.origin[name] === 'fitted';
            return html`<tr>
              <th scope="row">
                ${t.parameters[name]} <span class="se">${unit === '1' ? '' : unit}</span>
              </th>
              <td class="number">${estimate(doseResponse[name], 3)}</td>
              <td class="origin">${fitted ? t.fitted : sourceMark(provenance)}</td>
            </tr>`;
          })}
        </tbody>
      </table>
    </div>
    ${model.treated.length === 0 ? html`<p class="quiet">${t.noTrials}</p>` : trialsTemplate(model)}
    ${comparedTemplate(model)}
  </details>`;
}

function trialsTemplate({ treated }: TreatmentModel): TemplateResult {
  const t = text.treatment;
  return html`<div class="scroll" tabindex="0" role="group" aria-label=${t.trialsTable}>
    <table>
      <thead>
        <tr>
          <th scope="col">${t.trial}</th>
          <th scope="col">${t.bath}</th>
          <th scope="col" class="number">${t.gain}</th>
          <th scope="col" class="number">${t.pairs}</th>
        </tr>
      </thead>
      <tbody>
        ${treated.map(
          ({ strip, partsWater, bathMinutes, bathCelsius, gain, pairs }) =>
            html`<tr>
              <th scope="row">${strip}</th>
              <td>${text.bath(partsWater, bathMinutes, bathCelsius)}</td>
              <td class="number">×${estimate(gain, 3)}</td>
              <td class="number">${pairs}</td>
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}
