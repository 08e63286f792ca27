/**
 * Fifth station: the bath. Dilution, minutes and temperature move the treated curve at once; before
 * and after stand side by side; the plan for a target grade says whether it can be reached and why;
 * and the cautions stand where the bath is.
 */
import {
  layoutCompletionChart,
  layoutRangeRuler,
  formatNumber,
  type SheetPaperFit,
} from '@wedgebook/charts';
import type { TreatmentModel, TreatmentPrediction } from '@wedgebook/core';
import { cautionsFor, seleniumDefaults } from '@wedgebook/data';
import type { Plan } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { estimate, noticeStyles, sourceMark, warningList } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import type { BathView, CompletionCurves } from '../state/derive-bath.ts';
import { memo } from '../state/memo.ts';
import { celsiusFromTyped } from '../parts/quantities.ts';
import { text } from '../text.ts';
import { paperFit } from './sheet.ts';
import { treatmentStyles } from './treatment-station.styles.ts';
import '../parts/mixing-sheet.ts';
import '../parts/number-field.ts';
import '../parts/scene-chart.ts';

const CAUTIONS = cautionsFor('selenium');
const { practice } = seleniumDefaults;

@customElement('wb-treatment')
export class TreatmentStation extends LitElement {
  static override styles = [sharedStyles, noticeStyles, treatmentStyles];

  private readonly app = new AppController(this, ({ document, session }, { bath, derive }) => {
    const view = bath.view(document, session.family, session.targetGrade);
    return {
      bath: view,
      plan: document.plan,
      targetGrade: session.targetGrade,
      completion: bath.completion(view.model, document.plan),
      fit: this.#fit(view, derive.stripOf(document, session.stripId), document),
    };
  });
  readonly #fit = memo(paperFit);
  readonly #ruler = memo(
    (fit: SheetPaperFit): SceneLayout =>
      (width) =>
        layoutRangeRuler({ ...fit, width, title: text.sheetFigure.rulerTitle }),
  );
  readonly #completion = memo(completionLayout);

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { bath, plan, completion, fit, targetGrade } = view;
    const { model, prediction } = bath;
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.treatment.title}</h2>
        <p class="says">${text.treatment.says(model)}</p>
      </div>
      <div class="bath">
        <div class="controls">${this.controlsTemplate(plan)}</div>
        ${this.cautionsTemplate()}
      </div>
      ${fit === null ? nothing : html`<wb-chart id="ruler" .layout=${this.#ruler(fit)}></wb-chart>`}
      ${
        prediction === null
          ? html`<p class="quiet">${bath.missing ?? text.treatment.noNegative}</p>`
          : this.beforeAfterTemplate(prediction, model)
      }
      <h3>${text.treatment.targetTitle}</h3>
      ${this.targetTemplate(bath, targetGrade)}
      <h3>${text.treatment.completionTitle}</h3>
      <wb-chart
        id="completion"
        .height=${280}
        .layout=${this.#completion(completion, plan, bath)}
      ></wb-chart>
      ${this.modelTemplate(model)} ${warningList(prediction?.warnings ?? model.warnings)}
      <wb-mixing .partsWater=${plan.partsWater}></wb-mixing>
    </section>`;
  }

  private set(changes: Partial<Plan>, gesture: string): void {
    this.app.app.store.dispatch({ type: 'plan/set', changes, mergeKey: gesture });
  }

  private controlsTemplate(plan: Plan): TemplateResult {
    const t = text.treatment;
    return html` <p class="process">${seleniumDefaults.name}</p>
      <wb-number
        id="dilution"
        label=${t.dilution}
        lead="1+"
        key="plan/water"
        .value=${plan.partsWater}
        .min=${0}
        .max=${1000}
        .step=${0.5}
        .slider=${[0, 9] as const}
        @wb-value=${(event: CustomEvent<number>) => {
          this.set({ partsWater: event.detail }, 'water');
        }}
      ></wb-number>
      <wb-number
        id="minutes"
        label=${t.minutes}
        unit="min"
        key="plan/minutes"
        .value=${plan.minutes}
        .min=${0}
        .max=${1000}
        .step=${0.25}
        .slider=${[0, practice.minutes.range[1]] as const}
        @wb-value=${(event: CustomEvent<number>) => {
          this.set({ minutes: event.detail }, 'minutes');
        }}
      ></wb-number>
      <wb-number
        id="celsius"
        label=${t.temperature}
        unit="°C"
        key="plan/celsius"
        .value=${plan.celsius}
        .min=${0}
        .max=${60}
        .step=${0.5}
        .slider=${[15, 30] as const}
        .read=${celsiusFromTyped}
        @wb-value=${(event: CustomEvent<number>) => {
          this.set({ celsius: event.detail }, 'celsius');
        }}
      ></wb-number>
      <p class="quiet small">${t.temperatureHint}</p>
      <p class="quiet small">${t.usual(practice)} ${sourceMark(practice.provenance)}</p>
      <details>
        <summary>${t.stainTitle(plan)}</summary>
        <wb-number
          label=${t.stain}
          unit=${t.stainUnit}
          key="plan/stain"
          .value=${plan.stain}
          .min=${0}
          .max=${5}
          .step=${0.05}
          .decimals=${3}
          @wb-value=${(event: CustomEvent<number>) => {
            this.set({ stain: event.detail }, 'stain');
          }}
        ></wb-number>
        <wb-number
          label=${t.stainKept}
          unit=${t.stainKeptUnit}
          key="plan/kept"
          .value=${plan.stainKept}
          .min=${0}
          .max=${1}
          .step=${0.1}
          @wb-value=${(event: CustomEvent<number>) => {
            this.set({ stainKept: event.detail }, 'kept');
          }}
        ></wb-number>
        <p class="quiet small">${t.stainHint}</p>
      </details>`;
  }

  private cautionsTemplate(): TemplateResult {
    return html`<aside class="cautions" aria-labelledby="cautions">
      <h3 id="cautions">${text.treatment.cautions}</h3>
      <ul>
        ${CAUTIONS.map(
          ({ severity, text: sentence, provenance }) =>
            html`<li>
              <b class="severity">${text.treatment.severity[severity]}</b> ${sentence}
              <span class="source">${sourceMark(provenance)}</span>
            </li>`,
        )}
      </ul>
    </aside>`;
  }

  private beforeAfterTemplate(
    prediction: TreatmentPrediction,
    model: TreatmentModel,
  ): TemplateResult {
    const { before, after, effect, plausibleRange } = prediction;
    const t = text.treatment;
    const iso = (range: typeof before.isoRange) =>
      range === null
        ? text.none
        : html`R ${range.rounded} <span class="se">(${formatNumber(range.exact.value, 1)})</span>`;
    return html`<div class="scroll">
        <table class="before-after">
          <caption class="visually-hidden">
            ${t.beforeAfter}
          </caption>
          <thead>
            <tr>
              <th scope="col"><span class="visually-hidden">${t.quantity}</span></th>
              <th scope="col" class="number">${t.before}</th>
              <th scope="col" class="number">${t.after}</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">${text.match.densityRange}</th>
              <td class="number">${estimate(before.densityRange, 2)}</td>
              <td class="number">${estimate(after.densityRange, 2)}</td>
            </tr>
            <tr>
              <th scope="row">${text.match.printingRange} <span class="se">log₁₀</span></th>
              <td class="number">${estimate(before.printingRange, 2)}</td>
              <td class="number">${estimate(after.printingRange, 2)}</td>
            </tr>
            <tr>
              <th scope="row">${text.match.isoRangeWanted}</th>
              <td class="number">${iso(before.isoRange)}</td>
              <td class="number">${iso(after.isoRange)}</td>
            </tr>
            <tr class="grade">
              <th scope="row">${text.match.gradeWanted}</th>
              <td class="number">${text.gradeLong(before.paperGrade)}</td>
              <td class="number">${text.gradeLong(after.paperGrade)}</td>
            </tr>
            <tr>
              <th scope="row">${t.gain}</th>
              <td class="number">×1</td>
              <td class="number">×${estimate(effect.gain, 3)}</td>
            </tr>
            <tr>
              <th scope="row">${t.completion}</th>
              <td class="number">0 %</td>
              <td class="number">${formatNumber(100 * effect.completion.value, 0)} %</td>
            </tr>
          </tbody>
        </table>
      </div>
      <p class="quiet small">
        ${t.plausible(effect.plausibleGain, plausibleRange, model.origin)}
      </p>`;
  }

  private targetTemplate(
    { plan, gradeTable, sensitivity }: BathView,
    targetGrade: number,
  ): TemplateResult {
    const t = text.treatment;
    return html`<div class="fields">
        <div>
          <label for="target">${t.target}</label>
          <select
            id="target"
            @change=${(event: Event) => {
              this.app.app.session.set({
                targetGrade: Number((event.target as HTMLSelectElement).value),
              });
            }}
          >
            ${gradeTable.bands.map(({ grade }) => html`<option value=${grade} ?selected=${grade === targetGrade}>${text.match.gradeLabel(grade)}</option>`)}
          </select>
        </div>
        ${
          plan !== null && plan.reachable && plan.minutes > 0
            ? html`<button
                class="primary"
                @click=${() => {
                  const minutes = Math.round(plan.minutes * 4) / 4;
                  this.set({ minutes: minutes > 0 ? minutes : plan.minutes }, 'use plan');
                  this.app.app.store.endMerge();
                }}
              >
                ${t.usePlan(plan.minutes)}
              </button>`
            : nothing
        }
      </div>
      <p class="plan" role="status">
        ${plan === null ? text.treatment.noNegative : t.planSays(plan, targetGrade)}
      </p>
      <p class="quiet small">${t.sensitivity(sensitivity)}</p>`;
  }

  private modelTemplate(model: TreatmentModel): TemplateResult {
    const t = text.treatment;
    const { doseResponse, law } = model;
    const { parameters } = seleniumDefaults;
    const rows = (
      ['maximumGain', 'halfDose', 'concentrationExponent', 'temperatureCoefficient'] as const
    ).map(
      (name) =>
        html`<tr>
          <th scope="row">${t.parameters[name]}</th>
          <td class="number">${estimate(doseResponse[name], 3)}</td>
          <td>${parameters[name].unit === '1' ? '' : parameters[name].unit}</td>
          <td class="origin">
            ${doseResponse.origin[name] === 'fitted' ? t.fitted : sourceMark(parameters[name].provenance)}
          </td>
        </tr>`,
    );
    return html`<details>
      <summary>${t.modelTitle(model)}</summary>
      <p>${t.law(law)}</p>
      <div class="scroll" tabindex="0" role="group" aria-label=${t.modelTable}>
        <table>
          <thead>
            <tr>
              <th scope="col">${t.parameter}</th>
              <th scope="col" class="number">${t.value}</th>
              <th scope="col">${t.unit}</th>
              <th scope="col">${t.origin}</th>
            </tr>
          </thead>
          <tbody>
            ${rows}
          </tbody>
        </table>
      </div>
      ${
        model.treated.length === 0
          ? html`<p class="quiet">${t.noTrials}</p>`
          : html`<div class="scroll" tabindex="0" role="group" aria-label=${t.trialsTable}>
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
                  ${model.treated.map(
                    (trial) =>
                      html`<tr>
                        <th scope="row">${trial.strip}</th>
                        <td>
                          ${text.bath(trial.partsWater, trial.bathMinutes, trial.bathCelsius)}
                        </td>
                        <td class="number">×${estimate(trial.gain, 3)}</td>
                        <td class="number">${trial.pairs}</td>
                      </tr>`,
                  )}
                </tbody>
              </table>
            </div>`
      }
    </details>`;
  }
}

function completionLayout(curves: CompletionCurves, plan: Plan, bath: BathView): SceneLayout {
  const points = (list: CompletionCurves['planned']) =>
    list.map(({ minutes, completion }) => ({ minutes, completion: completion.value }));
  const { model, plan: target, prediction } = bath;
  const maximumGain = model.doseResponse.maximumGain.value;
  const done =
    prediction?.effect.completion.value ??
    curves.planned.findLast(({ minutes }) => minutes <= plan.minutes)?.completion.value ??
    0;
  const trials = model.treated
    .filter(
      ({ partsWater, bathCelsius }) =>
        partsWater === plan.partsWater && Math.abs(bathCelsius - plan.celsius) < 0.6,
    )
    .map(({ bathMinutes, gain }) => ({
      minutes: bathMinutes,
      completion:
        maximumGain > 1 ? Math.min(1.1, Math.max(0, (gain.value - 1) / (maximumGain - 1))) : 0,
    }));
  return (width, height) =>
    layoutCompletionChart({
      width,
      height,
      title: text.treatment.completionTitle,
      maximumGain,
      trials,
      plan: { minutes: plan.minutes, completion: done },
      target:
        target?.reachable === true && target.minutes > 0
          ? {
              minutes: target.minutes,
              completion: target.completion,
              label: text.treatment.targetLabel(target.minutes),
            }
          : null,
      curves: [
        ...curves.others.map(({ partsWater, points: list }) => ({
          id: String(partsWater),
          label: `1+${partsWater}`,
          planned: false,
          points: points(list),
        })),
        {
          id: 'planned',
          label: text.treatment.plannedLabel(plan),
          planned: true,
          points: points(curves.planned),
        },
      ],
    });
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-treatment': TreatmentStation;
  }
}
