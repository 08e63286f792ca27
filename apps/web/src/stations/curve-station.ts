/**
 * Second station: the family of curve in use, why, and its rivals on the same readings. The rivals
 * are fitted after a pause, so that typing never waits for them.
 */
import { CURVE_FAMILIES, type CurveFamily, type FamiliesCompared } from '@wedgebook/core';
import { formatNumber } from '@wedgebook/charts';
import type { Strip } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { noticeStyles } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { whenIdle } from '../state/after-frame.ts';
import { AppController } from '../state/app-controller.ts';
import { text } from '../text.ts';

const PAUSE_MILLISECONDS = 300;

@customElement('wb-curve')
export class CurveStation extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      :host {
        container-type: inline-size;
      }
      td.family {
        min-width: 9.5rem;
      }
      @container (max-width: 26rem) {
        td.family {
          min-width: 6.5rem;
        }
        table {
          font-size: 0.9375rem;
        }
        th,
        td {
          padding-inline: 0.2rem;
        }
        td.family label {
          gap: 0.4rem;
          font-size: 0.9375rem;
        }
      }
      /* Beside the sheet the table has little room: its heads may take two lines. */
      thead th.number {
        white-space: normal;
        vertical-align: bottom;
      }
      td.family label {
        display: flex;
        gap: 0.6rem;
        align-items: center;
        min-height: 2.75rem;
        margin: 0;
        font-size: 1rem;
        color: var(--text);
      }
      tr.chosen {
        font-weight: 600;
      }
      td {
        vertical-align: middle;
      }
    `,
  ];

  @state() private compared: FamiliesCompared | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private comparedWith: unknown = null;
  /** The choosing of curves is fetched: a comparison before it came says nothing. */
  private comparedBy: unknown = null;

  private readonly app = new AppController(this, ({ document, session }, { derive }) => {
    const strip = derive.stripOf(document, session.stripId);
    return {
      strip,
      family: document.plan.curveFamily,
      fit: strip === null ? null : derive.fit(document, strip, document.plan.curveFamily),
      curves: derive.curves,
    };
  });

  override disconnectedCallback(): void {
    clearTimeout(this.timer);
    super.disconnectedCallback();
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    const readings = this.app.value?.fit?.readings ?? null;
    if (readings === this.comparedWith && this.app.value?.curves === this.comparedBy) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      whenIdle(() => {
        this.compare();
      });
    }, PAUSE_MILLISECONDS);
  }

  private compare(): void {
    const readings = this.app.value?.fit?.readings ?? null;
    this.comparedWith = readings;
    const family = this.app.value?.family ?? 'toe-shoulder';
    const curves = this.app.value?.curves;
    this.comparedBy = curves;
    this.compared =
      readings === null || typeof curves !== 'object'
        ? null
        : curves.compareFamilies(readings, family);
  }

  private aboutOf(strip: Strip | null, family: CurveFamily, inUse: CurveFamily): string {
    if (inUse === family) return text.curve.families[family].about;
    return strip?.material === 'paper' ? text.curve.paperFollows(inUse) : text.curve.smoothFollows;
  }

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    const fit = view?.fit ?? null;
    if (view === undefined || fit === null) return nothing;
    const { family } = view;
    // For a paper the family may be chosen by its readings; the verdict is on the one in use.
    const inUse = fit.curve?.family ?? family;
    const compared = this.compared === null ? null : { ...this.compared, chosen: inUse };
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.curve.title}</h2>
        <p class="says">
          ${fit.fit.status === 'ok' ? text.curve.says(inUse, fit.fit.curve) : text.curve.why[fit.fit.reason]}
        </p>
      </div>
      <p>${this.aboutOf(view.strip, family, inUse)}</p>
      ${compared === null ? nothing : html`<p><b>${text.curve.verdict(verdictOf(compared, inUse), compared)}</b></p>`}
      <div class="scroll" tabindex="0" role="group" aria-label=${text.curve.rivals}>
        <table>
          <caption class="visually-hidden">
            ${text.curve.rivals}
          </caption>
          <thead>
            <tr>
              <th scope="col">${text.curve.family}</th>
              <th scope="col" class="number">${text.curve.scatter}</th>
              <th scope="col" class="number">${text.curve.parameters}</th>
              <th scope="col" class="number">${text.curve.difference}</th>
              <th scope="col" class="number">${text.curve.weight}</th>
            </tr>
          </thead>
          <tbody>
            ${CURVE_FAMILIES.map((each) => this.rowTemplate(each, family, compared))}
          </tbody>
        </table>
      </div>
      <p class="quiet small">${text.curve.criterion}</p>
    </section>`;
  }

  private rowTemplate(
    family: CurveFamily,
    chosen: CurveFamily,
    compared: FamiliesCompared | null,
  ): TemplateResult {
    const row = compared?.families.find((each) => each.family === family);
    const number = (value: number | null | undefined, decimals: number) =>
      value === null || value === undefined ? text.none : formatNumber(value, decimals);
    return html`<tr class=${family === chosen ? 'chosen' : ''}>
      <td class="family">
        <label
          ><input
            type="radio"
            name="family"
            .checked=${family === chosen}
            @change=${() => {
              this.app.app.store.dispatch({
                type: 'plan/set',
                changes: { curveFamily: family },
              });
            }}
          />${text.curve.families[family].name}</label
        >
      </td>
      <td class="number">
        ${row?.status === 'not-determined' ? text.curve.noFit : number(row?.residualStandardDeviation, 4)}
      </td>
      <td class="number">
        ${number(row?.parameterCount, Number.isInteger(row?.parameterCount ?? 0) ? 0 : 1)}
      </td>
      <td class="number">${number(row?.difference, 1)}</td>
      <td class="number">${percent(row?.weight ?? null)}</td>
    </tr>`;
  }
}

const percent = (weight: number | null): string =>
  weight === null ? text.none : `${formatNumber(100 * weight, 0)} %`;

/** The verdict on a family that was chosen after the comparison. */
function verdictOf(compared: FamiliesCompared, family: CurveFamily): FamiliesCompared['verdict'] {
  const own = compared.families.find((each) => each.family === family)?.difference ?? null;
  if (own === null) return 'not-comparable';
  return own === 0 ? 'best' : own < 2 ? 'as-good' : 'rival-better';
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-curve': CurveStation;
  }
}
