/** The four quadrants with one tone followed through, its gradients, and the zones in the print. */
import {
  formatNumber,
  layoutFourQuadrants,
  layoutZoneLadder,
  type QuadrantTone,
} from '@wedgebook/charts';
import {
  displayGrey,
  LOG_STOP,
  zoneName,
  type SubjectTone,
  type ToneErrors,
} from '@wedgebook/core';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { estimate, noticeStyles } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { chainView, type ChainRow } from '../state/derive-chain.ts';
import type { PrintingView } from '../state/derive-printing.ts';
import { memo } from '../state/memo.ts';
import { setPrinting } from '../state/set-printing.ts';
import { chain as words } from '../text/chain.ts';
import '../parts/number-field.ts';
import '../parts/scene-chart.ts';

const ZONES = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
const SHADOW_ZONES = [1, 2, 3, 4];
/** Textured shadow, by the custom of zone practice. */
const USUAL_SHADOW_ZONE = 3;
const STAGES = ['cameraFlare', 'film', 'treatment', 'light', 'enlargerFlare', 'paper'] as const;

@customElement('wb-chain')
export class ChainPart extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      .parts {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 34rem), 1fr));
        gap: 0 clamp(1.5rem, 3vw, 3rem);
      }
      .parts > * {
        min-width: 0;
      }
      .fields {
        margin: 0.75rem 0;
        align-items: start;
      }
      .follow {
        flex: 1 1 18rem;
      }
    `,
  ];

  /** The print, from the station. */
  @property({ attribute: false }) view: PrintingView | null = null;
  @state() private shadowZone = USUAL_SHADOW_ZONE;
  @state() private followed = USUAL_SHADOW_ZONE;

  readonly #chain = memo(chainView);
  readonly #settings = memo(
    (shadowZone: number, subjectRangeStops: number, flareFactor: number) => ({
      shadowZone,
      subjectRangeStops,
      flareFactor,
    }),
  );
  readonly #diagram = memo(diagramOf);
  readonly #ladder = memo(ladderOf);
  private readonly app = new AppController(this, ({ document, session }, { derive }) => {
    const { plan, printing, developmentPlan } = document;
    const negative = document.negatives.find(({ id }) => id === plan.negativeId);
    const strip = derive.stripOf(document, negative?.stripId ?? session.stripId);
    const film = strip?.material === 'film' ? strip : null;
    const fit = film === null ? null : derive.fit(document, film, plan.curveFamily);
    return {
      curve: fit?.curve ?? null,
      exposureKind: fit?.readings.exposureKind ?? 'relative',
      subjectRangeStops: developmentPlan.subjectRangeStops,
      flareFactor: printing.cameraFlareFactor ?? developmentPlan.flareFactor,
      grey: session.theme !== 'darkroom',
    };
  });

  protected override render(): TemplateResult | typeof nothing {
    const now = this.app.value;
    if (now === undefined || this.view === null) return nothing;
    const { curve, exposureKind, subjectRangeStops, flareFactor, grey } = now;
    const title = html`<h3>${words.title}</h3>`;
    if (curve === null)
      return html`${title}
        <p>${words.noFilm}</p>`;
    const settings = this.#settings(this.shadowZone, subjectRangeStops, flareFactor);
    const view = this.#chain(this.view, curve, settings);
    return html`${title}
      <p>${words.says}</p>
      ${this.fieldsTemplate(flareFactor)}
      ${
        view.status === 'ok'
          ? html`<div class="parts">
              <div>
                <wb-chart
                  id="quadrants"
                  .layout=${this.#diagram(view.rows, this.followed, exposureKind)}
                ></wb-chart>
              </div>
              <div>
                ${gradientsTemplate(view.rows, this.followed)}
                ${view.rows.map((row) => html`<p>${words.range(words[row.role], row.range)}</p>`)}
                <h3>${words.ladder}</h3>
                <p class="quiet small">${words.ladderHow}</p>
                <wb-chart
                  id="chain-zones"
                  tabled
                  .layout=${this.#ladder(view.rows, grey)}
                ></wb-chart>
                ${zonesTemplate(view.rows)}
              </div>
            </div>`
          : html`<p class="wrong">${words[view.status]}</p>`
      }`;
  }

  private fieldsTemplate(flareFactor: number): TemplateResult {
    return html`<div class="fields">
      ${choice({
        id: 'shadow-zone',
        label: words.shadowZone,
        selected: String(this.shadowZone),
        options: SHADOW_ZONES.map((zone) => [String(zone), zoneName(zone)] as const),
        onChoose: (zone) => {
          this.shadowZone = Number(zone);
        },
      })}
      <wb-number
        id="camera-flare"
        label=${words.cameraFlare}
        unit=${words.flareUnit}
        key="printing/camera-flare"
        .value=${flareFactor}
        .min=${1}
        .max=${16}
        .step=${0.25}
        .decimals=${2}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          setPrinting(this.app.app, { cameraFlareFactor: detail }, 'flare');
        }}
      ></wb-number>
      <wb-number
        class="follow"
        id="follow"
        label=${words.follow}
        key="printing/follow"
        .value=${this.followed}
        .min=${0}
        .max=${10}
        .step=${0.1}
        .decimals=${1}
        .slider=${[0, 10]}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          this.followed = detail;
        }}
      ></wb-number>
    </div>`;
  }
}

const toneOf = (tone: SubjectTone): QuadrantTone => ({
  logLuminance: tone.logLuminance,
  logExposure: tone.logExposure,
  negativeDensity: tone.printingDensity,
  printDensity: tone.printDensity,
});

function diagramOf(
  rows: readonly ChainRow[],
  zone: number,
  exposureKind: 'absolute' | 'relative',
): SceneLayout {
  const series = rows.map((row) => ({
    label: words[row.role],
    role: row.role,
    tones: row.quadrants.tones.map(toneOf),
    cursor: toneOf(row.follow(LOG_STOP * (zone - 5))),
  }));
  const zones = ZONES.map((each) => ({
    logLuminance: LOG_STOP * (each - 5),
    label: zoneName(each),
  }));
  return (width) =>
    layoutFourQuadrants({ width, title: words.diagram, exposureKind, series, zones });
}

function ladderOf(rows: readonly ChainRow[], grey: boolean): SceneLayout {
  const ladder = rows.map((row) => ({
    development: words[row.role],
    detail: words.ladderDetail(row.chain.printing.paper.exposureScale),
    rungs: row.zones.map((tone) => ({
      zone: zoneName(tone.zone),
      density: tone.negativeDensity,
      print: {
        density: tone.printDensity,
        lightness: tone.lightness,
        grey: displayGrey(tone.printDensity),
      },
      extrapolated: tone.extrapolated,
    })),
  }));
  return (width) => layoutZoneLadder({ width, title: words.ladder, rows: ladder, grey });
}

/** With its error, unless that would be shown as nothing: the tones that are held have none. */
const withError = (value: number, error: number | null, least: number, decimals: number) =>
  estimate({ value, standardError: error !== null && error >= least ? error : null }, decimals);
const density = (value: number, error: number | null) => withError(value, error, 0.0005, 2);
const lightnessOf = (value: number, error: number | null) => withError(value, error, 0.005, 1);

function gradientsTemplate(rows: readonly ChainRow[], zone: number): TemplateResult {
  const tones = rows.map((row) => {
    const tone = row.follow(LOG_STOP * (zone - 5));
    return { tone, errors: row.errors(tone) };
  });
  const line = (
    name: string,
    cell: (tone: SubjectTone, errors: ToneErrors) => string | TemplateResult,
  ): TemplateResult =>
    html`<tr>
      <th scope="row">${name}</th>
      ${tones.map(({ tone, errors }) => html`<td class="number">${cell(tone, errors)}</td>`)}
    </tr>`;
  return html`${framedTable({
    label: words.table,
    id: 'gradients',
    head: headRow(
      [words.table],
      rows.map(({ role }) => words[role]),
    ),
    body: [
      ...STAGES.map((stage) =>
        line(words.stages[stage], ({ gradients }) => formatNumber(gradients[stage], 2)),
      ),
      line(words.product, ({ toneGradient }) => formatNumber(toneGradient, 2)),
      line(words.onNegative, ({ negativeDensity }, errors) =>
        density(negativeDensity, errors.negativeDensity),
      ),
      line(words.reaches, ({ printDensity }, errors) => density(printDensity, errors.printDensity)),
      line(words.lightness, ({ lightness }, errors) => lightnessOf(lightness, errors.lightness)),
    ],
  })}
  ${tones.some(({ tone }) => tone.extrapolated) ? html`<p class="quiet small">${words.extrapolated}</p>` : nothing}`;
}

/** Every zone with its densities, for each print. */
function zonesTemplate(rows: readonly ChainRow[]): TemplateResult {
  const cells = ({ zones, errors }: ChainRow, index: number): TemplateResult => {
    const tone = zones[index];
    if (tone === undefined) return html``;
    const error = errors(tone);
    const shown = [
      density(tone.negativeDensity, error.negativeDensity),
      density(tone.printDensity, error.printDensity),
      lightnessOf(tone.lightness, error.lightness),
      formatNumber(tone.toneGradient, 2),
    ];
    return html`${shown.map((cell) => html`<td class="number">${cell}</td>`)}`;
  };
  const columns = [words.onNegative, words.reaches, words.lightness, words.gradient];
  return html`<details>
    <summary>${words.zoneTable}</summary>
    ${framedTable({
      label: words.zoneTable,
      id: 'zones',
      head: html`<tr>
          <th scope="col" rowspan="2">${words.zone}</th>
          ${rows.map(
            ({ role }) => html`<th scope="colgroup" colspan="4" class="number">${words[role]}</th>`,
          )}
        </tr>
        <tr>
          ${rows.map(() =>
            columns.map((column) => html`<th scope="col" class="number">${column}</th>`),
          )}
        </tr>`,
      body: ZONES.map(
        (zone, index) =>
          html`<tr>
            <th scope="row">${zoneName(zone)}</th>
            ${rows.map((row) => cells(row, index))}
          </tr>`,
      ),
    })}
    <p class="quiet small">${words.errorsFrom}</p>
  </details>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-chain': ChainPart;
  }
}
