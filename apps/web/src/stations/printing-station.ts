/**
 * Sixth station: the print. The wanted tones and one exposure that was found right give the setting
 * and the exposure of every other print, before and after the bath.
 */
import { formatNumber, formatSigned } from '@wedgebook/charts';
import type { Printing } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles, warningList } from '../parts/notices.ts';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { printingView, type PrintingView, type PrintRow } from '../state/derive-printing.ts';
import { splitView } from '../state/derive-split.ts';
import { setPrinting } from '../state/set-printing.ts';
import { memo } from '../state/memo.ts';
import { printing as words } from '../text/printing.ts';
import '../parts/number-field.ts';
import './printing-split.ts';
import './printing-chain.ts';
import './printing-wall.ts';

@customElement('wb-printing')
export class PrintingStation extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      #prints {
        min-width: 34rem;
      }
      .fields {
        margin: 0.75rem 0;
        align-items: start;
      }
      .parts {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 34rem), 1fr));
        gap: 0 clamp(1.5rem, 3vw, 3rem);
      }
      .parts > * {
        min-width: 0;
      }
      small {
        display: block;
        color: var(--quiet);
        font-size: 0.875rem;
      }
    `,
  ];

  readonly #view = memo(printingView);
  readonly #split = memo(splitView);
  private readonly app = new AppController(this, ({ document }, { bath, derive }) => {
    const { plan, printing } = document;
    const seen = bath.view(document, plan.curveFamily, plan.targetGrade);
    const view = this.#view(document, seen, derive);
    const split = 'missing' in view ? null : this.#split(document, derive, view, printing);
    return { view, split, printing };
  });

  protected override render(): TemplateResult | typeof nothing {
    const now = this.app.value;
    if (now === undefined) return nothing;
    const { view, split, printing } = now;
    if ('missing' in view) {
      return html`<section class="station" aria-labelledby="title">
        <h2 id="title">${words.title}</h2>
        <p>${words.missing[view.missing]}</p>
      </section>`;
    }
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${words.title}</h2>
        <p class="says">${words.says(view.rows)}</p>
      </div>
      <div class="parts">
        <div>
          <h3>${words.exposure}</h3>
          ${this.fieldsTemplate(view, printing)} ${rowsTemplate(view)}
          <p>${words.match('before', view.before, view.map)}</p>
          <p>${words.match('after', view.after, view.map)}</p>
          ${view.inUse.ownStrips ? nothing : html`<p class="quiet small">${words.generatedPaper}</p>`}
          ${warningList(view.warnings)}
        </div>
        <wb-split .view=${view} .split=${split}></wb-split>
      </div>
      <wb-wall .view=${view} .split=${split}>${sameTemplate(view)}</wb-wall>
      <wb-chain .view=${view}></wb-chain>
    </section>`;
  }

  private fieldsTemplate(view: PrintingView, printing: Printing): TemplateResult {
    const number = (
      field: keyof Pick<Printing, 'baseSeconds' | 'highlightPrintDensity' | 'shadowPrintDensity'>,
      label: string,
      unit: string,
      limits: { min: number; max: number; step: number; decimals: number },
    ): TemplateResult =>
      html`<wb-number
        id=${field}
        label=${label}
        unit=${unit}
        key=${`printing/${field}`}
        optional
        .value=${printing[field]}
        .min=${limits.min}
        .max=${limits.max}
        .step=${limits.step}
        .decimals=${limits.decimals}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          this.set({ [field]: detail }, field);
        }}
      ></wb-number>`;
    const reflection = { min: 0, max: 3, step: 0.05, decimals: 2 };
    const settings = view.inUse.ownStrips ? view.map.settings : [];
    return html`<div class="fields">
        ${
          settings.length > 1 && view.map.kind === 'strips'
            ? choice({
                id: 'setting',
                label: words.setting,
                selected: printing.setting ?? '',
                options: [
                  ['', words.middleSetting],
                  ...settings.map(({ setting }): [string, string] => [setting, setting]),
                ],
                onChoose: (setting) => {
                  this.set({ setting: setting === '' ? null : setting });
                },
              })
            : nothing
        }
        ${number('baseSeconds', words.base, words.baseUnit, { min: 0.1, max: 3600, step: 1, decimals: 1 })}
        ${number('highlightPrintDensity', words.wantedHighlight, words.reflection, reflection)}
        ${number('shadowPrintDensity', words.wantedShadow, words.reflection, reflection)}
        <wb-number
          id="enlargerFlare"
          label=${words.flare}
          unit=${words.flareUnit}
          key="printing/enlargerFlare"
          .value=${Math.round(1000 * printing.enlargerFlare) / 10}
          .min=${0}
          .max=${20}
          .step=${0.5}
          .decimals=${1}
          @wb-value=${({ detail }: CustomEvent<number>) => {
            this.set({ enlargerFlare: detail / 100 }, 'flare');
          }}
        ></wb-number>
      </div>
      <p class="quiet small">${words.baseHelp}</p>
      <p class="quiet small">${words.usual(view.usual.highlight, view.usual.shadow)}</p>`;
  }

  private set(changes: Partial<Printing>, gesture = ''): void {
    setPrinting(this.app.app, changes, gesture);
  }
}

function rowsTemplate({ rows, map }: PrintingView): TemplateResult | typeof nothing {
  if (rows.length === 0) return nothing;
  const tone = ({ printDensity, lightness }: PrintRow['shadow']) =>
    html`${formatNumber(printDensity, 2)}<small>${words.lightnessOf(lightness)}</small>`;
  return framedTable({
    label: words.table,
    id: 'prints',
    head: headRow(
      [words.print, words.on],
      [words.exposureHead, words.seconds, words.highlightHead, words.shadowHead],
    ),
    body: rows.map(
      (row) =>
        html`<tr>
          <th scope="row">${words.rowName(row)}</th>
          <td>${words.settingOf(row, map)}</td>
          <td class="number">
            ${
              row.stops === null
                ? html`<span class="quiet">${words.noSpeed}</span>`
                : estimate(row.stops, 2, formatSigned)
            }
          </td>
          <td class="number">${estimate(row.seconds, 1)}</td>
          <td class="number">${tone(row.highlight)}</td>
          <td class="number">${tone(row.shadow)}</td>
        </tr>`,
    ),
  });
}

/** Every sixth tone is enough to read. */
const EVERY = 6;

function sameTemplate({ same }: PrintingView): TemplateResult {
  const head = html`<h3>${words.sameTitle}</h3>
    <p>${words.same(same)}</p>`;
  if (same.status !== 'ok') return html`<div>${head}</div>`;
  const rows = same.tones.filter((_, i) => i % EVERY === 0);
  return html`<div>
    ${head}
    ${framedTable({
      label: words.sameTable,
      id: 'same',
      head: html`<tr>
          <th scope="col" rowspan="2">${words.negative}</th>
          <th scope="colgroup" colspan="2" class="number">${words.print}</th>
          <th scope="colgroup" colspan="2" class="number">${words.separation}</th>
        </tr>
        <tr>
          ${[0, 1].map(
            () =>
              html`<th scope="col" class="number">${words.before}</th>
                <th scope="col" class="number">${words.after}</th>`,
          )}
        </tr>`,
      body: rows.map(
        (tone) =>
          html`<tr>
            <th scope="row">${formatNumber(tone.negativeDensity, 2)}</th>
            <td class="number">${formatNumber(tone.printBefore, 2)}</td>
            <td class="number">${formatNumber(tone.printAfter, 2)}</td>
            <td class="number">${formatNumber(tone.separationBefore / 10, 1)}</td>
            <td class="number">${formatNumber(tone.separationAfter / 10, 1)}</td>
          </tr>`,
      ),
    })}
  </div>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-printing': PrintingStation;
  }
}
