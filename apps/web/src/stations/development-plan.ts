/**
 * The plan: what normal development aims at and why, the times of N-3 to N+3 with their intervals
 * and exposure indexes, and the table for the wall above the sink.
 *
 * @fires wb-plan - a setting was changed
 */
import { formatClock, formatNumber } from '@wedgebook/charts';
import { bounded, type Estimate, type PlannedDevelopment } from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { noticeStyles, sourceMark, warningList } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import type { DevelopmentView } from '../state/derive-development.ts';
import { development as text, named } from '../text/development.ts';
import { text as page } from '../text.ts';
import { firePlan, planField } from './development-fields.ts';
import { nextTemplate } from './development-next.ts';
import { developmentStyles } from './development-station.styles.ts';
import { printSinkTable, sinkTable } from './development-sink.ts';

@customElement('wb-development-plan')
export class DevelopmentPlanPart extends LitElement {
  static override styles = [sharedStyles, noticeStyles, developmentStyles];

  @property({ attribute: false }) view!: DevelopmentView;
  @property({ type: Boolean }) invented = false;

  protected override render(): TemplateResult {
    const { view } = this;
    const t = text.plan;
    return html`<h3>${t.title}</h3>
      ${this.settingsTemplate(view)}
      <div class="halves">
        <div>${aimTemplate(view)} ${view.plan.length === 0 ? nothing : tableTemplate(view)}</div>
        <div>
          ${view.plan.length === 0 ? nothing : this.sinkTemplate(view)} ${nextTemplate(view)}
        </div>
      </div>`;
  }

  private settingsTemplate({ settings, aim, laws }: DevelopmentView): TemplateResult {
    const t = text.plan;
    const usual = developmentDefaults.aims.find(({ measure }) => measure === settings.measure);
    return html`<div class="fields settings">
        ${choice({
          id: 'target-origin',
          label: t.target,
          selected: settings.target === null ? 'paper' : 'own',
          options: [
            ['paper', t.fromPaper],
            ['own', t.own],
          ],
          onChoose: (origin) => {
            const own = Math.round(100 * (aim?.contrast ?? usual?.value ?? 0.58)) / 100;
            firePlan(this, { target: origin === 'own' ? own : null });
          },
        })}
        ${
          settings.target === null
            ? nothing
            : planField(this, 'target', { label: t.ownTarget, value: settings.target, step: 0.01 })
        }
        ${planField(this, 'subjectRangeStops', {
          label: t.subject,
          value: settings.subjectRangeStops,
          unit: page.units.stops,
          step: 0.5,
        })}
        ${planField(this, 'flareFactor', {
          label: t.flare,
          value: settings.flareFactor,
          unit: '×',
          step: 0.1,
        })}
        ${planField(this, 'celsius', {
          label: t.celsius,
          value: settings.celsius,
          unit: '°C',
          step: 0.5,
        })}
        ${planField(this, 'speedNetDensity', {
          label: t.netDensity,
          value: settings.speedNetDensity,
          unit: page.units.density,
          step: 0.01,
        })}
        ${
          laws.model?.temperatureCoefficient.origin === 'fitted'
            ? nothing
            : planField(this, 'temperatureCoefficient', {
                label: t.coefficient,
                value: settings.temperatureCoefficient,
                unit: t.coefficientUnit,
                step: 0.1,
                optional: true,
              })
        }
      </div>
      <p class="quiet small">
        ${t.flareHint}
        ${usual === undefined ? nothing : html`${t.usualAim(usual.value)} ${sourceMark(usual.provenance)}`}
      </p>`;
  }

  private sinkTemplate(view: DevelopmentView): TemplateResult {
    return html`<div class="sink">
      <h4>${text.sink.title}</h4>
      <p class="quiet small">${text.sink.says}</p>
      ${sinkTable(view, this.invented)}
      <button
        @click=${() => {
          printSinkTable(this.view, this.invented);
        }}
      >
        ${text.sink.print}
      </button>
    </div>`;
  }
}

function tableTemplate({ plan, settings, laws }: DevelopmentView): TemplateResult {
  const t = text.plan;
  const numbers = [t.time, text.exposureIndex, t.interval, t.contrast, t.subjectStops, t.speed];
  return html`${framedTable({
      label: t.table,
      kind: 'plan',
      head: headRow([t.development], numbers),
      body: plan.map((row) => rowTemplate(row, settings.subjectRangeStops)),
    })}
    <p class="quiet small">
      ${t.intervalHint} ${laws.model?.basis === 'scaled-guess' ? t.noInterval : nothing}
    </p>
    ${warningList(plan.flatMap(({ warnings }) => warnings))}`;
}

function aimTemplate({ aim, settings }: DevelopmentView): TemplateResult {
  const t = text.plan;
  if (aim === null) return html`<p class="aim">${t.noAim}</p>`;
  return html`<p class="aim">${t.aim(aim, settings.measure)}</p>
    ${aim.origin === 'paper' ? html`<p class="quiet small">${t.aimHint(settings.measure)}</p>` : nothing}`;
}

function rowTemplate(row: PlannedDevelopment, subjectStops: number): TemplateResult {
  const t = text.plan;
  const { development, change, contrast, minutes, exposureIndex, speedChangeStops, warnings } = row;
  const notes = warnings.flatMap(({ code }) => t.notes[code] ?? []);
  return html`<tr class=${change === 0 ? 'normal' : ''} data-development=${development}>
    <th scope="row">
      ${named(development)}
      ${notes.length === 0 ? nothing : html`<span class="remark">${notes.join(', ')}</span>`}
    </th>
    <td class="number time">
      ${minutes === null ? html`<span class="quiet">${t.outOfReach}</span>` : formatClock(minutes.value)}
    </td>
    <td class="number">
      ${exposureIndex === null ? page.none : text.index(exposureIndex.arithmetic, exposureIndex.degrees)}
    </td>
    <td class="number">${minutes === null ? page.none : intervalOf(minutes)}</td>
    <td class="number">${formatNumber(contrast, 2)}</td>
    <td class="number">${t.stops(subjectStops - change)}</td>
    <td class="number">
      ${speedChangeStops === null || change === 0 ? page.none : t.speedStops(speedChangeStops)}
    </td>
  </tr>`;
}

/** The interval of 95 %, as the command prints it. */
function intervalOf(minutes: Estimate): string {
  const { interval } = bounded(minutes);
  if (interval === null) return page.none;
  const [low, high] = interval;
  return `${formatClock(Math.max(0, low)).replace(' min', '')} – ${formatClock(high)}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-development-plan': DevelopmentPlanPart;
  }
}
