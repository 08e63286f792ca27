/** What is known of the bath: each parameter with its source, and the trials behind it. */
import { RESPONSE_BOUNDS, type TreatmentModel } from '@wedgebook/core';
import { seleniumDefaults } from '@wedgebook/data';
import type { HeldParameters } from '@wedgebook/notebook';
import { html, nothing, type TemplateResult } from 'lit';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { estimate, sourceMark } from '../parts/notices.ts';
import { text } from '../text.ts';
import { comparedTemplate } from './treatment-compared.ts';
import '../parts/number-field.ts';

const NAMES = [
  'maximumGain',
  'halfDose',
  'concentrationExponent',
  'temperatureCoefficient',
] as const;

/** @param onHold - called with the value at which the user holds a parameter, or null to let go */
export function modelTemplate(
  model: TreatmentModel,
  held: HeldParameters,
  onHold: (name: keyof HeldParameters, value: number | null) => void,
): TemplateResult {
  const t = text.treatment;
  const { parameters } = seleniumDefaults;
  const { doseResponse } = model;
  return html`<details>
    <summary>${t.modelTitle(model)}</summary>
    <p>${t.law(model.law)}</p>
    ${framedTable({
      label: t.modelTable,
      head: headRow([t.parameter], [t.value], html`<th scope="col">${t.origin}</th>`),
      body: NAMES.map((name) => {
        const { unit, provenance } = parameters[name];
        const origin = doseResponse.origin[name];
        return html`<tr>
          <th scope="row">
            ${t.parameters[name]} <span class="se">${unit === '1' ? '' : unit}</span>
          </th>
          <td class="number">${estimate(doseResponse[name], 3)}</td>
          <td class="origin">${origin === 'default' ? sourceMark(provenance) : t[origin]}</td>
        </tr>`;
      }),
    })}
    ${holdTemplate(held, onHold)} ${fogTemplate(model)}
    ${model.treated.length === 0 ? html`<p class="quiet">${t.noTrials}</p>` : trialsTemplate(model)}
    ${comparedTemplate(model)}
  </details>`;
}

function holdTemplate(
  held: HeldParameters,
  onHold: (name: keyof HeldParameters, value: number | null) => void,
): TemplateResult {
  const t = text.treatment;
  return html`<h4>${t.holdTitle}</h4>
    <div class="fields">
      ${NAMES.map(
        (name) =>
          html`<wb-number
            data-held=${name}
            optional
            label=${t.parameters[name]}
            unit=${t.holdUnits[name]}
            key=${`plan/held/${name}`}
            .value=${held[name]}
            .min=${RESPONSE_BOUNDS[name][0]}
            .max=${RESPONSE_BOUNDS[name][1]}
            .step=${0.05}
            .decimals=${3}
            @wb-value=${({ detail }: CustomEvent<number | null>) => {
              onHold(name, detail);
            }}
          ></wb-number>`,
      )}
    </div>
    <p class="quiet small">${t.holdHint}</p>`;
}

function fogTemplate(model: TreatmentModel): TemplateResult | typeof nothing {
  const said = text.compared.fog(model);
  return said === null ? nothing : html`<p class="fog-change">${said}</p>`;
}

function trialsTemplate({ treated }: TreatmentModel): TemplateResult {
  const t = text.treatment;
  return framedTable({
    label: t.trialsTable,
    head: headRow([t.trial, t.bath], [t.gain, t.pairs]),
    body: treated.map(
      ({ strip, partsWater, bathMinutes, bathCelsius, gain, pairs }) =>
        html`<tr>
          <th scope="row">${strip}</th>
          <td>${text.bath(partsWater, bathMinutes, bathCelsius)}</td>
          <td class="number">×${estimate(gain, 3)}</td>
          <td class="number">${pairs}</td>
        </tr>`,
    ),
  });
}
