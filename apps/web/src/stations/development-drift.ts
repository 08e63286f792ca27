/**
 * Control strips of the process as control charts, with what signals in words.
 *
 * @fires wb-plan - the number of strips that set the limits was changed
 */
import { layoutDriftChart } from '@wedgebook/charts';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { noticeStyles } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import { directionOf, type DriftView } from '../state/derive-drift.ts';
import { memo } from '../state/memo.ts';
import { drift as text } from '../text/development-more.ts';
import { planField } from './development-fields.ts';
import { developmentStyles } from './development-station.styles.ts';
import '../parts/scene-chart.ts';

const DECIMALS = { 'speed-point': 2, contrast: 3, 'base-fog': 3 } as const;
const FEWEST = 3;

@customElement('wb-drift')
export class DriftPart extends LitElement {
  static override styles = [sharedStyles, noticeStyles, developmentStyles];

  @property({ attribute: false }) drift!: DriftView;
  @property({ type: Number }) first = 5;

  readonly #layout = memo(layoutOf);

  protected override render(): TemplateResult {
    const { drift, first } = this;
    const { strips, undated, unlike } = drift;
    const found = html`<p>${text.says}</p>
      ${
        strips.length + undated.length === 0
          ? html`<p class="none">${text.none} ${text.how}</p>`
          : nothing
      }
      ${undated.length === 0 ? nothing : html`<p class="undated">${text.undated(undated.length)}</p>`}
      ${unlike ? html`<p class="unlike">${text.unlike}</p>` : nothing}`;
    if (strips.length === 0) {
      return html`<h3>${text.title}</h3>
        ${found}`;
    }
    return html`<h3>${text.title}</h3>
      <div class="halves">
        <div>
          ${found}
          ${
            strips.length < FEWEST
              ? html`<p class="few">${text.few(strips.length)}</p>`
              : signalsTemplate(drift)
          }
          ${planField(this, 'limitStrips', {
            label: text.first,
            value: first,
            unit: text.firstUnit,
            step: 1,
            decimals: 0,
          })}
          <p class="quiet small">${text.limits}</p>
        </div>
        <wb-chart id="drift" .layout=${this.#layout(drift)}></wb-chart>
      </div>`;
  }
}

function layoutOf({ strips, measures }: DriftView): SceneLayout {
  const absolute = strips.every(({ fit }) => fit.readings.exposureKind === 'absolute');
  const panels = measures.map(({ measure, chart, readings }) => ({
    id: measure,
    measure:
      measure === 'speed-point'
        ? text.measures[measure][absolute ? 'absolute' : 'relative']
        : text.measures[measure],
    decimals: DECIMALS[measure],
    points: readings.map(
      (reading) =>
        reading && {
          value: reading.value,
          setsLimits: reading.setsLimits,
          signals: reading.signals.map((signal) => text.signals[signal]),
        },
    ),
    limits:
      chart.status === 'ok'
        ? { centre: chart.centre, warning: chart.warningLimits, action: chart.actionLimits }
        : null,
  }));
  const days = strips.map(({ strip }) => strip.processedOn ?? strip.name);
  return (width) => layoutDriftChart({ width, title: text.chart, days, panels });
}

function signalsTemplate(drift: DriftView): TemplateResult {
  const { strips, measures } = drift;
  const sentences = strips.flatMap(({ strip }, i) =>
    measures.flatMap(({ measure, readings }) => {
      const reading = readings[i] ?? null;
      if (reading === null || reading.signals.length === 0) return [];
      return [
        text.signalled(
          strip.name,
          strip.processedOn ?? '',
          text.names[measure],
          reading.deviations ?? 0,
          reading.signals.map((signal) => text.signals[signal]).join(', '),
        ),
      ];
    }),
  );
  if (sentences.length === 0) return html`<p class="steady">${text.steady(strips.length)}</p>`;
  const direction = directionOf(drift);
  return html`<ul class="warnings signals">
      ${sentences.map((sentence) => html`<li>${sentence}</li>`)}
    </ul>
    ${direction === null ? nothing : html`<p class="direction">${text.direction[direction]}</p>`}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-drift': DriftPart;
  }
}
