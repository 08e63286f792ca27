/**
 * The ways out for the negative, side by side: chart, table, what each costs, and the cautions of
 * every process in it. The order is the user's wish.
 */
import { formatNumber, formatSigned, layoutWaysChart, type WayRow } from '@wedgebook/charts';
import {
  sortWays,
  WAY_ORDERS,
  type KnownDevelopment,
  type ProcessNumber,
  type WayOrder,
  type WayOut,
} from '@wedgebook/core';
import {
  builtInSplit,
  cautions,
  filterFactorsProvenance,
  processDefaults,
  wayNotes,
} from '@wedgebook/data';
import type { Negative } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles, sourceMark } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController, shallowEqual } from '../state/app-controller.ts';
import { waysView, type SeparationAt, type WaysView } from '../state/derive-ways.ts';
import { knownDevelopment } from '../state/known-development.ts';
import type { BathView } from '../state/derive-bath.ts';
import { memo } from '../state/memo.ts';
import { ownSplitOf } from '../state/own-split.ts';
import { text } from '../text.ts';
import { cautionsTemplate } from './treatment-cautions.ts';
import { treatmentStyles } from './treatment-station.styles.ts';
import { waysStyles } from './treatment-ways.styles.ts';
import '../parts/number-field.ts';
import '../parts/scene-chart.ts';

const NOTES = new Map(wayNotes.map((note) => [note.id, note]));

@customElement('wb-ways')
export class WaysTable extends LitElement {
  static override styles = [sharedStyles, noticeStyles, treatmentStyles, waysStyles];

  @state() private order: WayOrder = 'least-interference';
  /** Net densities asked for; null takes the negative's own ends. */
  @state() private asked: SeparationAt | null = null;

  readonly #ways = memo(waysView);
  readonly #development = memo(knownDevelopment);
  readonly #split = ownSplitOf();
  readonly #chart = memo(chartOf);
  private readonly app = new AppController(
    this,
    ({ document }, { bath, derive }) => {
      const view = bath.view(document, document.plan.curveFamily, document.plan.targetGrade);
      const paper = document.papers.find(({ id }) => id === document.plan.paperId);
      const strip =
        paper?.source.kind === 'strip' ? derive.stripOf(document, paper.source.stripId) : null;
      return {
        bath: view,
        plan: document.plan,
        split: this.#split(document, derive),
        development: this.#development(document, derive, view.negative),
        curve: strip === null ? null : derive.fit(document, strip, document.plan.curveFamily).curve,
      };
    },
    shallowEqual,
    // A table of ten computed ways: a slider does not wait for it.
    'after-frame',
  );

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { bath, plan, curve, development, split } = view;
    const reckoned = this.#ways(bath, plan, curve, this.asked, development, split);
    const t = text.ways;
    if (reckoned === null) {
      return html`<h3>${t.title}</h3>
        <p class="quiet">${t.none}</p>`;
    }
    const ways = sortWays(reckoned.ways, this.order);
    return html`<h3 id="ways-title">${t.title}</h3>
      <p>${t.says}</p>
      ${this.controlsTemplate(reckoned, bath.negative, development)}
      <wb-chart
        id="ways-chart"
        .layout=${this.#chart(reckoned, bath, this.order, plan.callierFactor)}
      ></wb-chart>
      ${tableTemplate(ways)}
      <p class="quiet small">${t.assumptions}</p>
      ${cautionsTemplate(cautionsOf(ways), t.cautions, 'ways-cautions')} ${costsTemplate(ways)}
      ${numbersTemplate(split !== null)}`;
  }

  private controlsTemplate(
    { separationAt, baseFog }: WaysView,
    negative: Negative | null,
    { minutes, celsius }: KnownDevelopment,
  ): TemplateResult {
    const t = text.ways;
    const foot = baseFog ?? 0;
    const field = (end: keyof SeparationAt, label: string): TemplateResult =>
      html`<wb-number
        id=${`ways-${end}`}
        label=${label}
        unit=${baseFog === null ? t.net : t.gross}
        key=${`ways/${end}`}
        .value=${Math.round(1000 * (separationAt[end] + foot)) / 1000}
        .min=${foot}
        .max=${6}
        .step=${0.05}
        .decimals=${3}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          this.asked = { ...separationAt, [end]: Math.max(0, detail - foot) };
        }}
      ></wb-number>`;
    return html`<div class="fields">
      ${choice({
        id: 'ways-order',
        label: t.order,
        selected: this.order,
        options: WAY_ORDERS.map((order) => [order, t.orders[order]] as const),
        onChoose: (order) => {
          this.order = WAY_ORDERS.find((each) => each === order) ?? 'least-interference';
        },
      })}
      ${field('shadow', t.shadowAt)} ${field('highlight', t.highlightAt)}
      ${
        negative === null
          ? nothing
          : html`<wb-number
              id="ways-developed"
              optional
              label=${t.developed}
              unit=${t.developedUnit(celsius)}
              key=${`ways/developed/${negative.id}`}
              .value=${minutes}
              .min=${0.25}
              .max=${1000}
              .step=${0.5}
              @wb-value=${({ detail }: CustomEvent<number | null>) => {
                this.app.app.store.dispatch({
                  type: 'negative/change',
                  id: negative.id,
                  changes: {
                    development: detail === null ? null : { minutes: detail, celsius },
                  },
                  mergeKey: `ways/developed/${negative.id}`,
                });
              }}
            ></wb-number>`
      }
    </div>`;
  }
}

function tableTemplate(ways: readonly WayOut[]): TemplateResult {
  const t = text.ways;
  return html`<div class="scroll" tabindex="0" role="group" aria-label=${t.table}>
    <table class="ways" role="table">
      <caption class="visually-hidden">
        ${t.table}
      </caption>
      <thead role="rowgroup">
        <tr role="row">
          <th scope="col" role="columnheader">${t.way}</th>
          <th scope="col" role="columnheader" class="number">${t.range}</th>
          <th scope="col" role="columnheader">${t.grade}</th>
          <th scope="col" role="columnheader" class="number">${t.highlights}</th>
          <th scope="col" role="columnheader" class="number">${t.shadows}</th>
          <th scope="col" role="columnheader" class="number">${t.exposure}</th>
          <th scope="col" role="columnheader" class="number">${t.grain}</th>
        </tr>
      </thead>
      <tbody role="rowgroup">
        ${ways.map(rowTemplate)}
      </tbody>
    </table>
  </div>`;
}

function rowTemplate(way: WayOut): TemplateResult {
  const t = text.ways;
  const { negative, plausibleRange, graininess } = way;
  const detail = t.detail(way);
  const between =
    plausibleRange === null
      ? nothing
      : html`<span class="detail"
          >${formatNumber(Math.min(...plausibleRange), 2)} to
          ${formatNumber(Math.max(...plausibleRange), 2)}</span
        >`;
  const cell = (name: string, content: unknown, kind = 'number') =>
    html`<td role="cell" class=${kind} data-name=${name}><span>${content}</span></td>`;
  return html`<tr role="row" data-way=${way.id}>
      <th scope="row" role="rowheader">
        ${t.names[way.id]} ${detail === '' ? nothing : html`<span class="detail">${detail}</span>`}
      </th>
      ${cell(t.range, html`${estimate(negative.printingRange, 2)}${between}`)}
      ${cell(t.grade, html`${text.gradeLong(negative.paperGrade)}<span class="detail">${t.paperName(way)}</span>`, 'on')}
      ${cell(t.highlights, formatNumber(way.highlightSeparation, 2))}
      ${cell(t.shadows, formatNumber(way.shadowSeparation, 2))}
      ${cell(t.exposure, way.exposureStops === null ? text.none : formatSigned(way.exposureStops, 1))}
      ${cell(t.grain, `${formatNumber(graininess.negative, 2)} / ${formatNumber(graininess.print, 2)}`)}
    </tr>
    <tr role="row" class="costs-row">
      <td role="cell" colspan="7">
        <b>${t.lost}:</b> ${t.loses(way.id)}. <b>${t.hazards}:</b> ${t.hazardsOf(way.id)}.
      </td>
    </tr>`;
}

/** Cautions of the processes in the table; those of selenium and all wet work stand above it. */
function cautionsOf(ways: readonly WayOut[]) {
  const processes = new Set(ways.map(({ id }) => NOTES.get(id)?.process ?? null));
  const order = { danger: 0, loss: 1 } as const;
  return cautions
    .filter(
      ({ applies }) => (applies === 'chromium' || applies === 'reducer') && processes.has(applies),
    )
    .sort((a, b) => order[a.severity] - order[b.severity]);
}

function costsTemplate(ways: readonly WayOut[]): TemplateResult {
  return html`<details>
    <summary>${text.ways.costs}</summary>
    <dl class="costs">
      ${ways.map(({ id }) => {
        const note = NOTES.get(id);
        return note === undefined
          ? nothing
          : html`<dt>${text.ways.names[id]}</dt>
              <dd>${note.lost} ${sourceMark(note.provenance)}</dd>`;
      })}
    </dl>
  </details>`;
}

function numbersTemplate(ownPaper: boolean): TemplateResult {
  const t = text.ways;
  const row = (name: string, { value, range, unit, provenance }: ProcessNumber): TemplateResult =>
    html`<dt>${name}</dt>
      <dd>
        ${formatNumber(value, 2)}${unit === '1' ? '' : ` ${unit}`},
        ${t.between(range[0], range[1])}. ${sourceMark(provenance)}
      </dd>`;
  const { chromiumGain, redevelopedPart, superproportionalExponent, leastShadow, partOfLimit } =
    processDefaults;
  const { softFactor, hardFactor, provenance } = builtInSplit;
  return html`<details>
    <summary>${t.builtIn}</summary>
    <dl class="costs">
      ${row(t.chromiumGain, chromiumGain)} ${row(t.redevelopedPart, redevelopedPart)}
      ${row(t.superproportional, superproportionalExponent)} ${row(t.leastShadow, leastShadow)}
      ${row(t.partOfLimit, partOfLimit)}
      ${
        ownPaper || softFactor === null || hardFactor === null
          ? nothing
          : html`<dt>${t.layers}</dt>
              <dd>${sourceMark(provenance)}</dd>
              <dt>${t.filters}</dt>
              <dd>
                ${t.filterFactors(softFactor, hardFactor)} ${sourceMark(filterFactorsProvenance)}
              </dd>`
      }
    </dl>
  </details>`;
}

function chartOf(
  { ways }: WaysView,
  { gradeTable, target }: BathView,
  order: WayOrder,
  callierFactor: number,
): SceneLayout {
  const rows = sortWays(ways, order).map(({ id, negative, plausibleRange }): WayRow => ({
    id,
    label: text.ways.names[id],
    kind:
      id === 'next-roll'
        ? 'next'
        : id === 'print-to-fit' || id === 'split-exposure'
          ? 'untouched'
          : 'bath',
    printingRange: negative.printingRange.value,
    plausible: plausibleRange,
    verdict: text.gradeShort(negative.paperGrade),
  }));
  const [any] = ways;
  const aim = any === undefined ? 1 : any.negative.printingRange.value - any.fromTarget;
  // A table for condenser light lists diffuse ranges; the chart shows what the paper sees.
  const factor = gradeTable.light === 'condenser' ? callierFactor : 1;
  const bands = gradeTable.bands.map(({ grade, lower, upper }) => ({
    label: String(grade),
    lower: factor * lower,
    upper: factor * upper,
  }));
  return (width) =>
    layoutWaysChart({
      width,
      title: text.ways.chart,
      rows,
      bands,
      aim: { label: text.ways.aim(text.treatment.goalShort(target), aim), printingRange: aim },
    });
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-ways': WaysTable;
  }
}
