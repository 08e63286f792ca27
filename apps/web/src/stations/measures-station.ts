/**
 * Third station: every measure of the chosen strip with its unit, its definition and its standard
 * error, and the warnings that belong to them.
 */
import {
  roundedToError,
  slipSearch,
  type Estimate,
  type FilmMeasures,
  type PaperMeasures,
  type Warning,
} from '@wedgebook/core';
import { formatNumber } from '@wedgebook/charts';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { errorText, estimate, noticeStyles, warningList, withError } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { gradeTableOf, type StripFit } from '../state/derive.ts';
import { text } from '../text.ts';

/** One line of the list. */
interface Measure {
  readonly name: string;
  readonly value: TemplateResult | string;
  readonly unit: string;
  readonly definition: string;
}

@customElement('wb-measures')
export class MeasuresStation extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      dl {
        display: grid;
        grid-template-columns: minmax(9rem, auto) 1fr;
        margin: 0;
      }
      dt,
      dd {
        margin: 0;
        padding: 0.45rem 0;
        border-bottom: 1px solid var(--rule);
      }
      dt {
        padding-inline-end: 1rem;
      }
      .value {
        font-weight: 600;
        font-size: 1.125rem;
      }
      .definition {
        display: block;
        color: var(--quiet);
        font-size: 0.875rem;
      }
      @media (max-width: 30rem) {
        dl {
          display: block;
        }
        dt {
          border-bottom: 0;
          padding-bottom: 0;
        }
        dd {
          padding-top: 0;
        }
      }
    `,
  ];

  private readonly app = new AppController(this, ({ document, session }, { derive }) => {
    const strip = derive.stripOf(document, session.stripId);
    const fit = strip === null ? null : derive.fit(document, strip, document.plan.curveFamily);
    const isPaper = strip?.material === 'paper';
    const table = gradeTableOf(document);
    return {
      strip,
      table,
      noSlips: fit === null ? '' : noSlips(fit),
      exposureKind: fit?.readings.exposureKind ?? 'relative',
      film: strip === null || fit === null || isPaper ? null : derive.film(strip, fit),
      paper: strip === null || fit === null || !isPaper ? null : derive.paper(strip, fit, table),
    };
  });

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    const strip = view?.strip ?? null;
    if (view === undefined || strip === null) return nothing;
    const { film, paper, exposureKind } = view;
    const list =
      film !== null ? filmList(film, exposureKind) : paper !== null ? paperList(paper) : [];
    const warnings: readonly Warning[] = film?.warnings ?? paper?.warnings ?? [];
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.measures.title}</h2>
        <p class="says">${strip.name}</p>
      </div>
      ${
        list.length === 0
          ? html`<p class="quiet">${text.measures.none}</p>`
          : html`<dl>
              ${list.map(
                ({ name, value, unit, definition }) =>
                  html`<dt>${name}</dt>
                    <dd>
                      <span class="value">${value}</span> ${unit}
                      <span class="definition">${definition}</span>
                    </dd>`,
              )}
            </dl>`
      }
      ${view.noSlips === '' ? nothing : html`<p class="quiet small">${view.noSlips}</p>`}
      ${warningList(warnings)}
    </section>`;
  }
}

/** Where no slip is looked for, a sheet without marks says nothing about slips. */
function noSlips({ curve, readings }: StripFit): string {
  if (curve === null) return '';
  const count = readings.densities.length + readings.unexposedDensities.length;
  const search = slipSearch(curve, count);
  return search === 'done' ? '' : text.measures.noSlips[search](count);
}

function filmList(film: FilmMeasures, exposureKind: 'absolute' | 'relative'): Measure[] {
  const m = text.measures;
  const unit = m.logExposure[exposureKind];
  const { speed, isoTriangle, usefulRange, fractionalGradientSpeed } = film;
  const rows: Measure[] = [
    measure(m.baseFog, film.baseFog, 3),
    measure(m.densityMax, film.densityMax, 3),
    measure({ ...m.speedPoint, unit }, film.speedPoint?.logExposure, 3),
  ];
  if (speed !== null) {
    const { arithmetic, degrees, exact, kind } = speed;
    rows.push({
      name: kind === 'iso' ? m.isoSpeed.name : m.exposureIndex.name,
      value: html`${arithmetic}/${degrees}°`,
      unit: '',
      definition: (kind === 'iso' ? m.isoSpeed : m.exposureIndex).definition(
        ...speedFigures(exact),
      ),
    });
  }
  if (isoTriangle !== null) {
    rows.push({
      name: m.isoTriangle.name,
      value: estimate(isoTriangle.densityRise, 3),
      unit: m.density,
      definition: m.isoTriangle.definition(isoTriangle.met),
    });
  }
  rows.push(measure(m.contrastIndex, film.contrastIndex, 3));
  for (const { from, to, value } of film.averageGradients) {
    rows.push({
      name: m.averageGradient.name(to),
      value: estimate(value, 3),
      unit: '',
      definition: m.averageGradient.definition(from, to),
    });
  }
  rows.push(
    measure(m.gamma, film.gamma, 3),
    measure({ ...m.inertia, unit }, film.inertia?.logExposure, 3),
  );
  if (usefulRange !== null) {
    rows.push({
      name: m.usefulRange.name,
      value: `${usefulRange.atLeast ? '≥ ' : ''}${formatNumber(usefulRange.value, 2)}`,
      unit: m.logUnits,
      definition: m.usefulRange.definition(usefulRange.atLeast),
    });
  }
  if (fractionalGradientSpeed !== null) {
    rows.push(speedMeasure(m.fractional, fractionalGradientSpeed.exact));
  }
  if (film.hurterDriffieldSpeed !== null) {
    rows.push(speedMeasure(m.hurterDriffield, film.hurterDriffieldSpeed));
  }
  return rows;
}

function paperList(paper: PaperMeasures): Measure[] {
  const m = text.measures;
  const rows: Measure[] = [
    measure(m.paperMin, paper.densityMin, 3),
    {
      ...measure(m.paperMax, paper.densityMax, 3),
      definition: m.paperMaxBasis[paper.densityMax.basis],
    },
    measure(m.exposureScale, paper.exposureScale, 3),
  ];
  if (paper.isoRange !== null) {
    rows.push({
      name: m.isoRange.name,
      value: `R ${paper.isoRange.rounded}`,
      unit: '',
      definition: m.isoRange.definition(formatNumber(paper.isoRange.exact.value, 1)),
    });
  }
  if (paper.isoSpeed !== null) {
    const { rounded, exact } = paper.isoSpeed;
    rows.push({
      name: m.paperSpeed.name,
      value: rounded === null ? text.none : `P ${rounded}`,
      unit: '',
      definition: m.paperSpeed.definition(...speedFigures(exact)),
    });
  }
  if (paper.paperGrade !== null) {
    rows.push({
      name: m.paperGrade.name,
      value: text.gradeLong(paper.paperGrade),
      unit: '',
      definition: m.paperGrade.definition,
    });
  }
  rows.push(
    measure(m.paperGradient, paper.averageGradient, 3),
    measure(m.greatestGradient, paper.greatestGradient, 3),
  );
  return rows;
}

/** A speed and its error, to the digits that the error leaves a meaning in. */
function speedFigures(exact: Estimate): [string, string | null] {
  const { value, standardError, decimals } = roundedToError(exact, 1);
  const error = standardError === null ? null : errorText(standardError, decimals);
  return [formatNumber(value, decimals), error];
}

function speedMeasure(words: Parameters<typeof measure>[0], exact: Estimate): Measure {
  const [value, error] = speedFigures(exact);
  return { ...words, value: withError(value, error) };
}

function measure(
  words: { readonly name: string; readonly unit: string; readonly definition: string },
  value: Estimate | null | undefined,
  decimals: number,
): Measure {
  return { ...words, value: estimate(value, decimals) };
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-measures': MeasuresStation;
  }
}
