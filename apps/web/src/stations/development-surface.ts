/**
 * The surface of the film: the curve that a development time nobody tested would give, between the
 * strips that were, and how well each strip is predicted from the others.
 *
 * @fires wb-plan - another time was chosen
 */
import { formatClock, formatNumber, layoutCurveSheet, type SheetSeries } from '@wedgebook/charts';
import {
  contrastOf,
  densityBand,
  filmMeasures,
  isoSpeed,
  speedPointOf,
  surfaceCurve,
  type DevelopmentSurface,
} from '@wedgebook/core';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { estimate, noticeStyles, warningList } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import type { DevelopmentView, TimedStrip } from '../state/derive-development.ts';
import { memo } from '../state/memo.ts';
import type { SolvedSurface } from '../state/surface-solver.ts';
import { surface as text } from '../text/development-more.ts';
import { development, measureName } from '../text/development.ts';
import { capital } from '../text/phrases.ts';
import { text as page } from '../text.ts';
import { planField } from './development-fields.ts';
import { developmentStyles } from './development-station.styles.ts';
import '../parts/scene-chart.ts';

const SAMPLES = 90;

@customElement('wb-development-surface')
export class DevelopmentSurfacePart extends LitElement {
  static override styles = [sharedStyles, noticeStyles, developmentStyles];

  @property({ attribute: false }) view!: DevelopmentView;
  @property({ attribute: false }) solved: SolvedSurface | null = null;
  @property({ type: Boolean }) pending = false;
  @property({ type: Boolean }) failed = false;

  readonly #drawn = memo(predicted);

  protected override render(): TemplateResult {
    return html`<h3>${text.title}</h3>
      ${this.bodyTemplate()}`;
  }

  private bodyTemplate(): TemplateResult {
    const { solved, pending, failed, view } = this;
    const says = html`<p>${text.says}</p>`;
    if (failed) {
      return html`${says}
        <p class="wrong">${text.failed}</p>`;
    }
    const waiting = html`<p class="quiet" role="status">${text.waiting}</p>`;
    if (solved === null) return html`${says} ${waiting}`;
    const { fit, strips } = solved;
    const head = html`${says} ${pending ? waiting : nothing}`;
    if (fit.status !== 'ok') {
      return html`${head}
        <p class="none">${text.reason[fit.reason]}</p>
        ${warningList(fit.warnings)}`;
    }
    const { surface } = fit;
    const minutes = timeOf(view, surface);
    const drawn = this.drawn(surface, strips, minutes);
    return html`<div class="halves">
      <div>
        ${head} ${this.timeTemplate(minutes, surface)}
        ${
          drawn === null
            ? html`<p class="none">${text.noCurve(formatClock(minutes))}</p>`
            : html`<wb-chart id="surface" .height=${360} .layout=${drawn.layout}></wb-chart>`
        }
      </div>
      <div>
        ${drawn === null ? nothing : figuresTemplate(drawn, view.settings.measure)}
        <p class="quiet small">${text.form(surface)} ${text.band}</p>
        ${leftOutTemplate(surface, strips)}
      </div>
    </div>`;
  }

  private timeTemplate(minutes: number, { testedMinutes }: DevelopmentSurface): TemplateResult {
    const [first, last] = testedMinutes;
    const slider = [Math.max(0.5, Math.floor(first / 2)), Math.ceil(1.4 * last)] as const;
    return planField(this, 'chosenMinutes', {
      label: text.minutes,
      value: minutes,
      unit: development.minutes,
      step: 0.25,
      decimals: 2,
      slider,
    });
  }

  private drawn(surface: DevelopmentSurface, strips: readonly TimedStrip[], minutes: number) {
    const { celsius, measure, speedNetDensity } = this.view.settings;
    return this.#drawn(surface, strips, minutes, celsius, measure, speedNetDensity);
  }
}

function figuresTemplate(
  { baseFog, contrast, index, warnings }: NonNullable<ReturnType<typeof predicted>>,
  measure: DevelopmentView['settings']['measure'],
): TemplateResult {
  return html`<dl class="figures" aria-label=${text.figures}>
      <div>
        <dt>${capital(measureName(measure))}</dt>
        <dd>${estimate(contrast, 3)}</dd>
      </div>
      <div>
        <dt>${text.index}</dt>
        <dd>${index ?? page.none}</dd>
      </div>
      <div>
        <dt>${text.baseFog}</dt>
        <dd>${estimate(baseFog, 3)} ${page.units.density}</dd>
      </div>
    </dl>
    ${warningList(warnings)}`;
}

/** The time decided on, else that of normal development, else the middle of those tried. */
function timeOf(
  { settings, plan }: DevelopmentView,
  { testedMinutes }: DevelopmentSurface,
): number {
  const normal = plan.find(({ change }) => change === 0)?.minutes?.value;
  const [first, last] = testedMinutes;
  const usual = normal ?? Math.sqrt(first * last);
  return settings.chosenMinutes ?? Math.round(usual * 12) / 12;
}

function predicted(
  surface: DevelopmentSurface,
  strips: readonly TimedStrip[],
  minutes: number,
  celsius: number,
  measure: DevelopmentView['settings']['measure'],
  netDensity: number,
) {
  const cut = surfaceCurve(surface, minutes, celsius);
  if (cut === null) return null;
  const { curve, warnings } = cut;
  const absolute = strips.every(({ fit }) => fit.readings.exposureKind === 'absolute');
  const exposureKind = absolute ? 'absolute' : 'relative';
  const [from, to] = curve.logExposureRange;
  const exposures = Array.from(
    { length: SAMPLES + 1 },
    (_, i) => from + ((to - from) * i) / SAMPLES,
  );
  const points = densityBand(curve, exposures);
  const main: SheetSeries = {
    id: 'before',
    label: text.predicted(formatClock(minutes)),
    role: 'before',
    line: points.map(({ logExposure, density }) => ({ logExposure, density })),
    band: points.map(({ logExposure, lower, upper }) => ({ logExposure, low: lower, high: upper })),
    markers: [],
  };
  const speedPoint = speedPointOf(curve, netDensity);
  const { baseFog } = filmMeasures(curve, { exposureKind });
  const series = [...neighbours(strips, minutes, celsius, surface).map(seriesOf), main];
  const layout: SceneLayout = (width, height) =>
    layoutCurveSheet({
      width,
      height,
      title: text.chart(formatClock(minutes)),
      exposureKind,
      series,
      speedPoint:
        speedPoint === null
          ? null
          : { logExposure: speedPoint.value, density: baseFog.value + netDensity },
      baseFog: baseFog.value,
      fit: null,
    });
  const index = absolute && speedPoint !== null ? isoSpeed(speedPoint.value) : null;
  return {
    layout,
    baseFog,
    contrast: contrastOf(curve, measure),
    index: index && development.index(index.arithmetic, index.degrees),
    warnings,
  };
}

/** The strips next below and next above a time, by what they would take at its temperature. */
function neighbours(
  strips: readonly TimedStrip[],
  minutes: number,
  celsius: number,
  { parameters }: DevelopmentSurface,
): TimedStrip[] {
  const q = parameters.at(-1) ?? 1;
  const timed = strips
    .map((strip) => {
      const { minutes: own, celsius: at } = strip.development;
      return { strip, time: own * q ** ((at - celsius) / 10) };
    })
    .toSorted((a, b) => a.time - b.time);
  const below = timed.findLast(({ time }) => time <= minutes);
  const above = timed.find(({ time }) => time > minutes);
  return [below, above].flatMap((found) => (found === undefined ? [] : [found.strip]));
}

function seriesOf({ strip, fit }: TimedStrip): SheetSeries {
  const { curve, readings } = fit;
  const [from, to] = curve?.logExposureRange ?? [0, 0];
  const exposures = Array.from(
    { length: SAMPLES + 1 },
    (_, i) => from + ((to - from) * i) / SAMPLES,
  );
  return {
    id: strip.id,
    label: strip.name,
    role: 'other',
    line: curve === null ? [] : densityBand(curve, exposures),
    markers: readings.logExposures.map((logExposure, i) => ({
      logExposure,
      density: readings.densities[i] ?? 0,
    })),
  };
}

function leftOutTemplate(
  surface: DevelopmentSurface,
  strips: readonly TimedStrip[],
): TemplateResult {
  const { leftOut, leaveOneOutError, residualStandardDeviation } = surface;
  if (leaveOneOutError === null) return html`<p class="left-out">${text.leftOutNone}</p>`;
  return html`<h4>${text.leftOut}</h4>
    <p class="left-out">${text.leftOutSays(leaveOneOutError, residualStandardDeviation)}</p>
    ${framedTable({
      label: text.leftOut,
      kind: 'strips',
      head: headRow(
        [text.strip],
        [text.minutesShort, text.error],
        html`<th scope="col">${text.remark}</th>`,
      ),
      body: leftOut.map(
        ({ index, minutes, error, extrapolated }) =>
          html`<tr>
            <th scope="row">${strips[index]?.strip.name ?? page.none}</th>
            <td class="number">${formatNumber(minutes, 2)}</td>
            <td class="number">${formatNumber(error, 3)}</td>
            <td>${extrapolated ? text.extrapolated : text.between}</td>
          </tr>`,
      ),
    })}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-development-surface': DevelopmentSurfacePart;
  }
}
