/**
 * The next development: strips at several times, the law of contrast against time, the plan that a
 * photographer tapes over the sink, and whether the process holds.
 */
import { formatNumber } from '@wedgebook/charts';
import { isoSpeed } from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import type { DevelopmentMeasure, DevelopmentPlan } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { estimate, noticeStyles, sourceMark, warningList } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { contrastLayout } from '../state/contrast-layout.ts';
import { factorErrorOf } from '../state/derive-bath.ts';
import { DeriveDevelopment, type DevelopmentView } from '../state/derive-development.ts';
import { ladderPaperOf } from '../state/derive-zones.ts';
import { memo } from '../state/memo.ts';
import { SurfaceSolver } from '../state/surface-solver.ts';
import { development as text, measureName } from '../text/development.ts';
import { text as page } from '../text.ts';
import { developmentStyles } from './development-station.styles.ts';
import { measureTemplate } from './development-chord.ts';
import { fieldKey, type PlanChange } from './development-fields.ts';
import '../parts/scene-chart.ts';
import './development-drift.ts';
import './development-or-bath.ts';
import './development-plan.ts';
import './development-surface.ts';
import './development-zones.ts';

@customElement('wb-development')
export class DevelopmentStation extends LitElement {
  static override styles = [sharedStyles, noticeStyles, developmentStyles];

  #derive: DeriveDevelopment | undefined;
  readonly #chart = memo(contrastLayout);
  readonly #paper = ladderPaperOf();
  readonly #surface = new SurfaceSolver(() => {
    this.requestUpdate();
  });
  private readonly app = new AppController(this, ({ document, session }, { derive, bath }) => {
    this.#derive ??= new DeriveDevelopment(derive, bath);
    return {
      view: this.#derive.view(document),
      model: bath.model(document, document.plan.curveFamily),
      bath: document.plan,
      paper: this.#paper(document, derive, bath),
      drift: this.#derive.drift(document),
      callierFactor: document.plan.callierFactor,
      callierFactorError: factorErrorOf(document.plan),
      invented: document.invented,
      grey: session.theme !== 'darkroom',
    };
  });

  override disconnectedCallback(): void {
    this.#surface.stop();
    super.disconnectedCallback();
  }

  protected override render(): TemplateResult | typeof nothing {
    const given = this.app.value;
    if (given === undefined) return nothing;
    const { view } = given;
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${page.stations.development}</h2>
        <p class="says">${text.says(view)}</p>
      </div>
      ${view.films.length === 0 ? nothing : this.choicesTemplate(view)}
      ${view.replaced.length === 0 ? nothing : html`<p class="wrong">${text.replaced(view.replaced)}</p>`}
      ${view.timed.length === 0 ? emptyTemplate() : nothing}
      ${view.strips.length === 0 ? nothing : this.lawTemplate(view)}
      ${view.timed.length === 0 ? nothing : this.planTemplate(given)}
      <wb-drift
        .drift=${given.drift}
        .first=${view.settings.limitStrips}
        @wb-plan=${this.onPlan}
      ></wb-drift>
    </section>`;
  }

  private readonly onPlan = ({ detail }: CustomEvent<PlanChange>): void => {
    this.set(detail.changes, detail.gesture);
  };

  private set(changes: Partial<DevelopmentPlan>, gesture?: string): void {
    const mergeKey = gesture === undefined ? {} : { mergeKey: `development ${gesture}` };
    this.app.app.store.dispatch({ type: 'developmentPlan/set', changes, ...mergeKey });
  }

  private choicesTemplate({ films, filmId, settings }: DevelopmentView): TemplateResult {
    return html`<div class="fields">
      ${choice({
        id: 'film',
        label: text.film,
        selected: filmId,
        options: films,
        onChoose: (id) => {
          this.set({ filmId: id === '' ? null : id });
        },
      })}
      ${measureTemplate(settings.measure, (measure, gesture) => {
        this.chooseMeasure(measure, settings.target !== null, gesture);
      })}
    </div>`;
  }

  /** A figure of the user's own means nothing in another measure: the usual one takes its place. */
  private chooseMeasure(measure: DevelopmentMeasure, ownTarget: boolean, gesture?: string): void {
    const usual = developmentDefaults.aims.find((aim) => aim.measure === measure)?.value ?? null;
    if (!ownTarget || gesture !== undefined) {
      this.set({ measure }, gesture);
      return;
    }
    this.app.app.store.dispatch({
      type: 'several',
      commands: [
        { type: 'developmentPlan/set', changes: { measure, target: usual } },
        { type: 'typed/keep', key: fieldKey('target'), text: null },
      ],
    });
  }

  private lawTemplate(view: DevelopmentView): TemplateResult {
    const { model, rival, fit } = view.laws;
    const law =
      model === null
        ? nothing
        : html`<p class="law">
              ${text.law(model)} ${rival === null ? nothing : text.rival(model, rival)}
            </p>
            <p class="quiet small">
              ${text.temperature(model)} ${text.timing(model)}
              ${
                model.temperatureCoefficient.origin === 'given' &&
                view.settings.temperatureCoefficient === null
                  ? sourceMark(developmentDefaults.temperatureCoefficient.provenance)
                  : nothing
              }
            </p>`;
    const strips = html`${stripsTemplate(view)} ${warningList(fit.warnings)}`;
    if (view.timed.length === 0) return html`${law} ${strips}`;
    return html`<div class="halves">
      <div>
        <wb-chart
          id="contrast"
          .height=${320}
          .layout=${this.#chart(view.laws, view.timed, view.plan, view.settings)}
        ></wb-chart>
      </div>
      <div>${law} ${strips}</div>
    </div>`;
  }

  private planTemplate(given: NonNullable<typeof this.app.value>): TemplateResult {
    const { view, model, bath, paper, callierFactor, callierFactorError, invented, grey } = given;
    this.#surface.ask(view.timed, view.coefficient);
    const { solved, pending, failed } = this.#surface;
    return html`<wb-development-plan
        .view=${view}
        .invented=${invented}
        @wb-plan=${this.onPlan}
      ></wb-development-plan>
      <wb-development-surface
        .view=${view}
        .solved=${solved}
        .pending=${pending}
        .failed=${failed}
        @wb-plan=${this.onPlan}
      ></wb-development-surface>
      <wb-zones
        .view=${view}
        .solved=${solved}
        .paper=${paper}
        .callierFactor=${callierFactor}
        .callierFactorError=${callierFactorError}
        .grey=${grey}
      ></wb-zones>
      <wb-development-or-bath
        .view=${view}
        .solved=${solved}
        .model=${model}
        .partsWater=${bath.partsWater}
        .bathCelsius=${bath.celsius}
      ></wb-development-or-bath>`;
  }
}

function emptyTemplate(): TemplateResult {
  return html`<div class="empty">
    <h3>${text.empty.title}</h3>
    <ol>
      ${text.empty.steps.map((step) => html`<li>${step}</li>`)}
    </ol>
  </div>`;
}

function stripsTemplate({ strips, settings, laws, treatedCount }: DevelopmentView): TemplateResult {
  const shown = strips.filter(({ leftOut }) => leftOut !== 'control');
  const controls = strips.length - shown.length;
  const noSpeed = strips.every(({ speedPoint }) => speedPoint === null);
  const numbers = [text.minutes, text.celsius, measureName(settings.measure), text.exposureIndex];
  return html`${framedTable({
    label: text.stripsTable,
    kind: 'strips',
    head: headRow([text.strip], numbers),
    body: shown.map(({ strip, development, contrast, speedPoint, leftOut }) => {
      const index = speedPoint === null ? null : indexOf(speedPoint.value);
      return html`<tr class=${leftOut === null ? '' : 'out'}>
        <th scope="row">
          ${strip.name}
          ${leftOut === null ? nothing : html`<span class="remark">${text.leftOut[leftOut]}</span>`}
        </th>
        <td class="number">
          ${development === null ? page.none : formatNumber(development.minutes, 2)}
        </td>
        <td class="number">
          ${development === null ? page.none : formatNumber(development.celsius, 1)}
        </td>
        <td class="number">${estimate(contrast, 3)}</td>
        <td class="number">${index ?? page.none}</td>
      </tr>`;
    }),
  })}
  ${controls === 0 ? nothing : html`<p class="quiet small">${text.control(controls)}</p>`}
  ${treatedCount === 0 ? nothing : html`<p class="quiet small">${text.treated(treatedCount)}</p>`}
  ${noSpeed && laws.model !== null ? html`<p class="quiet small">${text.noSpeed}</p>` : nothing}`;
}

/** Such as `64/19°`: an exposure index, never an ISO speed. */
function indexOf(logExposure: number): string {
  const { arithmetic, degrees } = isoSpeed(logExposure);
  return text.index(arithmetic, degrees);
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-development': DevelopmentStation;
  }
}
