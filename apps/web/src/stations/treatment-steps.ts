/** The steps before, in and after the bath, each with its caution. */
import { KEEPING_LIMIT, washingMinutes } from '@wedgebook/core';
import { cautions, seleniumSteps, type TreatmentStep } from '@wedgebook/data';
import { html, nothing, type TemplateResult } from 'lit';
import { sourceMark } from '../parts/notices.ts';
import { text } from '../text.ts';

const CAUTION_OF = new Map(cautions.map((caution) => [caution.id, caution]));
const PARTS = ['before', 'during', 'after'] as const;

export function stepsTemplate(): TemplateResult {
  const t = text.steps;
  return html`<h3>${t.title}</h3>
    ${PARTS.map(
      (when) =>
        html`<h4>${t.when[when]}</h4>
          <ol class="steps">
            ${seleniumSteps.filter((step) => step.when === when).map(stepTemplate)}
          </ol>`,
    )}
    <p class="small">
      ${t.washing(washingMinutes(1), washingMinutes(10), KEEPING_LIMIT)}
      <span class="quiet">${t.washingSource}</span>
    </p>`;
}

function stepTemplate({ text: sentence, caution: id, provenance }: TreatmentStep): TemplateResult {
  const caution = id === null ? undefined : CAUTION_OF.get(id);
  return html`<li>
    ${sentence} <span class="source">${sourceMark(provenance)}</span>
    ${
      caution === undefined
        ? nothing
        : html`<span class="caution"
            ><b class="severity">${text.treatment.severity[caution.severity]}</b> ${caution.text}
            ${sourceMark(caution.provenance)}</span
          >`
    }
  </li>`;
}
