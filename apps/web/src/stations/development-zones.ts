/** The zone ladder: patches for each development of the plan, and the zones of one as a table. */
import { formatClock, formatNumber, layoutZoneLadder } from '@wedgebook/charts';
import { greyOfLightness, zoneName } from '@wedgebook/core';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import type { DevelopmentView } from '../state/derive-development.ts';
import { laddersOf, type LadderOf, type LadderPaper } from '../state/derive-zones.ts';
import { memo } from '../state/memo.ts';
import type { SolvedSurface } from '../state/surface-solver.ts';
import { zones as text } from '../text/development-more.ts';
import { development, named } from '../text/development.ts';
import { developmentStyles } from './development-station.styles.ts';
import '../parts/scene-chart.ts';

@customElement('wb-zones')
export class ZonesPart extends LitElement {
  static override styles = [sharedStyles, noticeStyles, developmentStyles];

  @property({ attribute: false }) view!: DevelopmentView;
  @property({ attribute: false }) solved: SolvedSurface | null = null;
  @property({ attribute: false }) paper: LadderPaper | null = null;
  @property({ type: Number }) callierFactor = 1;
  @property({ attribute: false }) callierFactorError: number | null = null;
  /** Whether patches may be grey: not under red light. */
  @property({ type: Boolean }) grey = true;
  @state() private change = 0;

  readonly #ladders = memo(
    (
      solved: SolvedSurface | null,
      plan: DevelopmentView['plan'],
      paper: LadderPaper | null,
      settings: DevelopmentView['settings'],
      callierFactor: number,
      callierFactorError: number | null,
    ): readonly LadderOf[] =>
      solved?.fit.status === 'ok'
        ? laddersOf(plan, solved.fit.surface, paper, {
            ...settings,
            callierFactor,
            callierFactorError,
          })
        : [],
  );
  readonly #layout = memo(layoutOf);

  protected override render(): TemplateResult {
    return html`<h3>${text.title}</h3>
      ${this.bodyTemplate()}`;
  }

  private bodyTemplate(): TemplateResult {
    const { view, solved, paper, callierFactor, callierFactorError, grey } = this;
    if (solved === null) return html`<p class="quiet">${text.waiting}</p>`;
    const ladders = this.#ladders(
      solved,
      view.plan,
      paper,
      view.settings,
      callierFactor,
      callierFactorError,
    );
    const shown = ladders.find(({ row }) => row.change === this.change) ?? ladders[0];
    if (shown === undefined) return html`<p class="none">${text.none}</p>`;
    return html`<div class="halves">
      <div>
        <p>${text.says(paper)}</p>
        ${grey ? nothing : html`<p class="red">${text.red}</p>`}
        <wb-chart id="ladder" .layout=${this.#layout(ladders, grey)}></wb-chart>
        <p class="quiet small">${text.how}</p>
      </div>
      <div>
        ${choice({
          id: 'ladder-of',
          label: text.choose,
          selected: String(shown.row.change),
          options: ladders.map(({ row }) => [String(row.change), named(row.development)]),
          onChoose: (change) => {
            this.change = Number(change);
          },
        })}
        ${tableTemplate(shown, exposureKindOf(solved))}
      </div>
    </div>`;
  }
}

function layoutOf(ladders: readonly LadderOf[], grey: boolean): SceneLayout {
  const rows = ladders.map(({ row, minutes, rungs }) => {
    const index = row.exposureIndex;
    return {
      development: row.development,
      detail: text.detail(
        formatClock(minutes),
        index === null ? null : development.index(index.arithmetic, index.degrees),
      ),
      rungs: rungs.map(({ zone, density, print, extrapolated }) => ({
        zone: zoneName(zone),
        density: density.value,
        print: print && {
          density: print.density.value,
          lightness: print.lightness.value,
          grey: 255 * greyOfLightness(Math.max(0, print.lightness.value)),
        },
        extrapolated,
      })),
    };
  });
  return (width) => layoutZoneLadder({ width, title: text.chart, rows, grey });
}

function exposureKindOf({ strips }: SolvedSurface): 'absolute' | 'relative' {
  return strips.every(({ fit }) => fit.readings.exposureKind === 'absolute')
    ? 'absolute'
    : 'relative';
}

function tableTemplate(
  { row, rungs }: LadderOf,
  exposureKind: 'absolute' | 'relative',
): TemplateResult {
  const caption = text.table(named(row.development));
  const { density, print, lightness, net, logExposure } = text;
  return framedTable({
    label: caption,
    kind: 'zones',
    head: headRow([text.zone], [density, print, lightness, net, logExposure[exposureKind]]),
    body: rungs.map(
      ({ zone, logExposure, density, netDensity, print, extrapolated }) =>
        html`<tr>
          <th scope="row">
            ${zoneName(zone)}
            ${extrapolated ? html`<span class="remark">${text.outside}</span>` : nothing}
          </th>
          <td class="number">${estimate(density, 2)}</td>
          <td class="number">${estimate(print?.density ?? null, 2)}</td>
          <td class="number">${estimate(print?.lightness ?? null, 1)}</td>
          <td class="number">${formatNumber(netDensity, 2)}</td>
          <td class="number">${formatNumber(logExposure, 2)}</td>
        </tr>`,
    ),
  });
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-zones': ZonesPart;
  }
}
