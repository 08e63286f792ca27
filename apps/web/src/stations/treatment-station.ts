/**
 * Fifth station: the bath. Dilution, minutes and temperature move the treated curve at once; the
 * cautions stand where the bath is; before and after stand side by side; the plan for a target
 * grade says whether it can be reached and why.
 */
import { formatNumber, layoutRangeRuler, type SheetPaperFit } from '@wedgebook/charts';
import {
  gainAtBath,
  toneBaseFog,
  type GradesWithin,
  type TreatmentModel,
  type TreatmentPrediction,
} from '@wedgebook/core';
import { cautionsFor, seleniumDefaults } from '@wedgebook/data';
import { TARGET_KINDS, type Plan } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles, sourceMark, warningList } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import type { BathView } from '../state/derive-bath.ts';
import { completionLayout } from '../state/completion-layout.ts';
import { memo } from '../state/memo.ts';
import { paperFit } from '../state/paper-fit.ts';
import { text } from '../text.ts';
import { cautionsTemplate } from './treatment-cautions.ts';
import { modelTemplate } from './treatment-model.ts';
import { nextTrialTemplate } from './treatment-next.ts';
import { stepsTemplate } from './treatment-steps.ts';
import { treatmentStyles } from './treatment-station.styles.ts';
import '../parts/mixing-sheet.ts';
import '../parts/number-field.ts';
import '../parts/scene-chart.ts';
import '../timer/bath-timer.ts';
import './treatment-baths.ts';
import './treatment-trials.ts';
import './treatment-ways.ts';

const CAUTIONS = cautionsFor('selenium');
const { practice } = seleniumDefaults;
/** A quarter of a minute: as fine as anyone times a tray. */
const QUARTER = 0.25;

@customElement('wb-treatment')
export class TreatmentStation extends LitElement {
  static override styles = [sharedStyles, noticeStyles, treatmentStyles];

  readonly #fit = memo(paperFit);
  readonly #ruler = memo(
    (fit: SheetPaperFit): SceneLayout =>
      (width) =>
        layoutRangeRuler({ ...fit, width, title: text.sheetFigure.rulerTitle }),
  );
  readonly #completion = memo(completionLayout);
  private readonly app = new AppController(this, ({ document, session }, { bath, derive }) => {
    const view = bath.view(document, document.plan.curveFamily, document.plan.targetGrade);
    const { plan } = document;
    return {
      bath: view,
      plan,
      completion: this.#completion(bath.completion(view.model, plan), plan, view),
      fit: this.#fit(view, derive.stripOf(document, session.stripId), plan.minutes),
    };
  });

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { bath, plan, completion, fit } = view;
    const { model, prediction } = bath;
    const { gain } = gainAtBath(model.doseResponse, plan);
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.treatment.title}</h2>
        <p class="says">${text.treatment.says(model)}</p>
      </div>
      ${this.controlsTemplate(plan, gain.value)}
      ${
        fit === null
          ? nothing
          : html`<div class="ruler">
              <wb-chart id="ruler" .layout=${this.#ruler(fit)}></wb-chart>
            </div>`
      }
      <h3>${text.treatment.beforeAfter}</h3>
      ${
        prediction === null
          ? html`<p class="quiet">${bath.missing ?? text.treatment.noNegative}</p>`
          : beforeAfterTemplate(prediction, model, fogOf(bath, plan, prediction))
      }
      <h3>${text.treatment.targetTitle}</h3>
      ${this.targetTemplate(bath, plan)}
      <h3>${text.treatment.completionTitle}</h3>
      <wb-chart id="completion" .height=${280} .layout=${completion}></wb-chart>
      ${nextTrialTemplate(bath.nextTrial)}
      ${modelTemplate(model, plan.held, (name, value) => {
        this.set({ held: { ...plan.held, [name]: value } }, `held ${name}`);
      })}
      ${warningList(prediction?.warnings ?? model.warnings)}
      <wb-trials></wb-trials>
      <wb-ways></wb-ways>
      <wb-mixing .partsWater=${plan.partsWater}></wb-mixing>
      ${stepsTemplate()}
      <wb-timer .minutes=${plan.minutes}></wb-timer>
      <wb-baths></wb-baths>
    </section>`;
  }

  private set(changes: Partial<Plan>, gesture: string): void {
    this.app.app.store.dispatch({ type: 'plan/set', changes, mergeKey: gesture });
  }

  private controlsTemplate(plan: Plan, gain: number): TemplateResult {
    const t = text.treatment;
    // The cautions stand right under the controls: on a phone one screen holds both.
    return html`<p class="process">${seleniumDefaults.name}</p>
      <p class="quiet small">
        ${t.usual(practice)} ${t.typedHint} ${sourceMark(practice.provenance)}
      </p>
      <div class="controls">
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
          @wb-value=${({ detail }: CustomEvent<number>) => {
            this.set({ partsWater: detail }, 'water');
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
          .step=${QUARTER}
          .slider=${[0, practice.minutes.range[1]] as const}
          @wb-value=${({ detail }: CustomEvent<number>) => {
            this.set({ minutes: detail }, 'minutes');
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
          @wb-value=${({ detail }: CustomEvent<number>) => {
            this.set({ celsius: detail }, 'celsius');
          }}
        ></wb-number>
      </div>
      ${cautionsTemplate(CAUTIONS, t.cautions)}
      <details>
        <summary>${t.stainTitle(plan)}</summary>
        <div class="fields">
          <wb-number
            label=${t.stain}
            unit=${t.stainUnit}
            key="plan/stain"
            .value=${plan.stain}
            .min=${0}
            .max=${5}
            .step=${0.05}
            .decimals=${3}
            @wb-value=${({ detail }: CustomEvent<number>) => {
              this.set({ stain: detail }, 'stain');
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
            @wb-value=${({ detail }: CustomEvent<number>) => {
              this.set({ stainKept: detail }, 'kept');
            }}
          ></wb-number>
        </div>
        <p class="quiet small">${t.stainHint}</p>
      </details>
      <details>
        <summary>${t.fogTitle(plan)}</summary>
        <div class="fields">
          <wb-number
            id="clear-base"
            optional
            label=${t.clearBase}
            unit=${t.clearBaseUnit}
            key="plan/clear-base"
            .value=${plan.clearBaseDensity}
            .min=${0}
            .max=${2}
            .step=${0.01}
            .decimals=${3}
            @wb-value=${({ detail }: CustomEvent<number | null>) => {
              this.set({ clearBaseDensity: detail }, 'clear base');
            }}
          ></wb-number>
        </div>
        <p class="quiet small">${t.clearBaseHint}</p>
      </details>
      ${
        plan.stain > 0
          ? html`<p class="stain-loss">${text.compared.stainLoss(gain, plan.stain)}</p>`
          : nothing
      }`;
  }

  private targetTemplate(
    { plan, target, gradeTable, sensitivity, prediction, missing }: BathView,
    { targetKind, targetGrade, targetRange }: Plan,
  ): TemplateResult {
    const t = text.treatment;
    const sureness = plan === null ? null : t.sureness(plan);
    const usable = plan !== null && plan.reachable && plan.minutes > 0;
    const said =
      target === null
        ? t.noTarget[targetKind]
        : plan === null
          ? missing === null || missing === text.match.noNegative
            ? t.planNeedsNegative
            : missing
          : t.planSays(plan, target);
    return html`<div class="fields">
        ${choice({
          id: 'target-kind',
          label: t.targetKind,
          selected: targetKind,
          options: TARGET_KINDS.map((kind) => [kind, t.targetKinds[kind]] as const),
          onChoose: (kind) => {
            const chosen = TARGET_KINDS.find((each) => each === kind) ?? 'grade';
            this.set({ targetKind: chosen }, `target ${kind}`);
          },
        })}
        ${
          targetKind === 'grade'
            ? choice({
                id: 'target',
                label: t.target,
                selected: String(targetGrade),
                options: gradeTable.bands.map(({ grade }) => [
                  String(grade),
                  text.match.gradeLabel(grade),
                ]),
                onChoose: (grade) => {
                  this.set({ targetGrade: Number(grade) }, `target ${grade}`);
                },
              })
            : nothing
        }
        ${
          targetKind === 'range'
            ? html`<wb-number
                id="target-range"
                optional
                label=${t.targetRange}
                key="plan/target-range"
                .value=${targetRange}
                .min=${0.05}
                .max=${6}
                .step=${0.05}
                .decimals=${3}
                @wb-value=${({ detail }: CustomEvent<number | null>) => {
                  this.set({ targetRange: detail }, 'target range');
                }}
              ></wb-number>`
            : nothing
        }
        ${
          usable
            ? html`<button
                class="primary"
                @click=${() => {
                  this.set({ minutes: toQuarter(plan.minutes) }, 'use plan');
                  this.app.app.store.endMerge();
                }}
              >
                ${t.usePlan(toQuarter(plan.minutes), plan.minutes)}
              </button>`
            : nothing
        }
      </div>
      <p class="plan">${said}</p>
      ${sureness === null ? nothing : html`<p class="sureness">${sureness}</p>`}
      <p class="quiet small">
        ${t.sensitivity(sensitivity, prediction?.before.printingRange.value ?? null)}
      </p>`;
  }
}

function toQuarter(minutes: number): number {
  const rounded = Math.round(minutes / QUARTER) * QUARTER;
  return rounded > 0 ? rounded : minutes;
}

/** Base + fog before and after; null where it is not known. */
function fogOf(
  { ends }: BathView,
  { clearBaseDensity }: Plan,
  { effect }: TreatmentPrediction,
): { readonly before: number; readonly after: number; readonly above: boolean } | null {
  const before = ends?.rangeOnly === true ? null : (ends?.baseFog ?? null);
  if (before === null) return null;
  const above = clearBaseDensity !== null && clearBaseDensity > before;
  const clear = above || clearBaseDensity === null ? undefined : clearBaseDensity;
  return { before, after: toneBaseFog(before, effect, clear), above };
}

function beforeAfterTemplate(
  { before, after, effect, plausibleRange }: TreatmentPrediction,
  model: TreatmentModel,
  fog: ReturnType<typeof fogOf>,
): TemplateResult {
  const t = text.treatment;
  const iso = (range: typeof before.isoRange) =>
    range === null
      ? text.none
      : html`R ${range.rounded} <span class="se">(${formatNumber(range.exact.value, 1)})</span>`;
  const gradesOf = (within: GradesWithin) =>
    within === null ? text.none : text.gradesBetween(within);
  const row = (name: unknown, left: unknown, right: unknown, strong = false) =>
    html`<tr class=${strong ? 'grade' : ''}>
      <th scope="row">${name}</th>
      <td class="number">${left}</td>
      <td class="number">${right}</td>
    </tr>`;
  return html`<table class="before-after">
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
        ${row(
          text.match.gradeWanted,
          text.gradeLong(before.paperGrade),
          text.gradeLong(after.paperGrade),
          true,
        )}
        ${
          after.gradesWithin === null
            ? nothing
            : row(t.gradesWithin, gradesOf(before.gradesWithin), gradesOf(after.gradesWithin))
        }
        ${row(
          html`${text.match.printingRange} <span class="se">log₁₀</span>`,
          estimate(before.printingRange, 2),
          estimate(after.printingRange, 2),
        )}
        ${row(
          text.match.densityRange,
          estimate(before.densityRange, 2),
          estimate(after.densityRange, 2),
        )}
        ${row(text.match.isoRangeWanted, iso(before.isoRange), iso(after.isoRange))}
        ${fog === null ? nothing : row(t.baseFog, formatNumber(fog.before, 2), formatNumber(fog.after, 2))}
        ${row(t.gain, '×1', html`×${estimate(effect.gain, 3)}`)}
        ${row(t.completion, '0 %', `${formatNumber(100 * effect.completion.value, 0)} %`)}
      </tbody>
    </table>
    ${fog?.above === true ? html`<p class="wrong">${t.clearBaseAbove}</p>` : nothing}
    <p class="quiet small">${t.plausible(effect.plausibleGain, plausibleRange, model.origin)}</p>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-treatment': TreatmentStation;
  }
}
