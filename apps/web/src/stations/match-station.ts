/**
 * Fourth station: the negative, the paper and the enlarger's light; from them the printing range,
 * the ISO range and the grade that the negative calls for.
 */
import { layoutRangeRuler, type SheetPaperFit } from '@wedgebook/charts';
import type { Estimate } from '@wedgebook/core';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles, warningList } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { focusIn } from '../parts/focus-after.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { factorErrorOf, type BathView } from '../state/derive-bath.ts';
import { memo } from '../state/memo.ts';
import { paperFit } from '../state/paper-fit.ts';
import { text } from '../text.ts';
import { newNegative } from '../worksheet/new-entries.ts';
import './negative-card.ts';
import './paper-card.ts';
import '../parts/scene-chart.ts';

@customElement('wb-match')
export class MatchStation extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      .result {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(8.5rem, 1fr));
        gap: 0.75rem 1.5rem;
        margin: 1.25rem 0;
      }
      .result dt {
        color: var(--quiet);
        font-size: 0.875rem;
      }
      .result dd {
        margin: 0;
        font-size: 1.4rem;
        font-weight: 600;
        line-height: 1.25;
      }
      .result small {
        display: block;
        font-size: 0.875rem;
        font-weight: 400;
        color: var(--quiet);
      }
      .field {
        flex: 1 1 14rem;
        max-width: 24rem;
      }
      .field select {
        width: 100%;
      }
      /* On a narrow screen the sheet brings the ruler, and the bath again. */
      @media (max-width: 61.99rem) {
        .ruler {
          display: none;
        }
      }
    `,
  ];

  readonly #fit = memo(paperFit);
  readonly #factor = memo((value: number, standardError: number | null): Estimate => ({
    value,
    standardError,
  }));
  readonly #ruler = memo(
    (fit: SheetPaperFit): SceneLayout =>
      (width) =>
        layoutRangeRuler({ ...fit, width, title: text.sheetFigure.rulerTitle }),
  );
  private readonly app = new AppController(this, ({ document, session }, { bath, derive }) => {
    const view = bath.view(document, document.plan.curveFamily, document.plan.targetGrade);
    const strip = derive.stripOf(document, session.stripId);
    return {
      bath: view,
      strip,
      negatives: document.negatives,
      factor: this.#factor(document.plan.callierFactor, factorErrorOf(document.plan)),
      fit: this.#fit(view, strip, document.plan.minutes),
    };
  });

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { bath, negatives, fit, factor } = view;
    const { negative } = bath;
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.match.title}</h2>
        <p class="says">${text.match.says(bath)}</p>
      </div>
      <div class="fields">
        ${choice({
          id: 'negative',
          label: text.match.negative,
          selected: negative?.id ?? '',
          options: [
            ['', text.match.chooseNegative],
            ...negatives.map(({ id, name }): [string, string] => [id, name]),
          ],
          onChoose: (id) => {
            this.chooseNegative(id);
          },
        })}
        <button @click=${this.addNegative}>${text.match.newNegative}</button>
      </div>
      ${negative === null ? nothing : html`<wb-negative @wb-removed=${this.focusList}></wb-negative>`}
      <h3>${text.match.paperAndLight}</h3>
      <wb-paper></wb-paper>
      ${
        bath.missing === null
          ? nothing
          : // A notebook with no negative yet needs no reproach.
            html`<p class=${negative === null ? 'quiet' : 'wrong'}>${bath.missing}</p>`
      }
      ${resultTemplate(bath, factor)}
      ${
        fit === null
          ? nothing
          : html`<div class="ruler"><wb-chart .layout=${this.#ruler(fit)}></wb-chart></div>`
      }
    </section>`;
  }

  private chooseNegative(id: string): void {
    const { store, session } = this.app.app;
    const negative = store.state.document.negatives.find((each) => each.id === id);
    store.dispatch({ type: 'plan/set', changes: { negativeId: negative?.id ?? null } });
    // The sheet shows the curve that the negative lies on.
    const stripId = negative?.stripId ?? null;
    if (stripId !== null) session.set({ stripId });
  }

  /** The card that had the focus is gone. */
  private readonly focusList = (): void => {
    void focusIn(this, '#negative');
  };

  private readonly addNegative = async (): Promise<void> => {
    const { store } = this.app.app;
    const strip = this.app.value?.strip ?? null;
    const entry = newNegative(store.state.document, strip?.material === 'film' ? strip : null);
    store.dispatch({
      type: 'several',
      commands: [
        { type: 'negative/add', entry },
        { type: 'plan/set', changes: { negativeId: entry.id } },
      ],
    });
    this.app.say(text.match.negativeAdded(entry.name));
    await this.updateComplete;
    await this.renderRoot.querySelector('wb-negative')?.focusNewSpot();
  };
}

function resultTemplate(
  { match, paper, ends }: BathView,
  factor: Estimate,
): TemplateResult | typeof nothing {
  if (match === null || ends === null) return nothing;
  const { densityRange, printingRange, isoRange, paperGrade, gradesWithin, paper: fit } = match;
  const item = (name: string, value: unknown, note: string) =>
    html`<div>
      <dt>${name}</dt>
      <dd>${value}<small>${note}</small></dd>
    </div>`;
  const exact = isoRange === null ? '' : text.match.exactly(isoRange.exact);
  return html`<dl class="result">
      ${item(text.match.densityRange, estimate(densityRange, 2), text.match.densityRangeOf(ends))}
      ${item(
        text.match.printingRange,
        estimate(printingRange, 2),
        text.match.printingRangeOf(factor),
      )}
      ${item(
        text.match.isoRangeWanted,
        isoRange === null ? text.none : `R ${isoRange.rounded}`,
        exact,
      )}
      ${item(text.match.gradeWanted, text.gradeShort(paperGrade), text.gradeDetail(paperGrade, gradesWithin))}
      ${
        fit === null || paper === null
          ? nothing
          : item(
              text.match.onPaper(paper.label),
              text.match.verdicts[fit.verdict],
              text.match.differenceOf(fit),
            )
      }
    </dl>
    ${warningList([...match.warnings, ...(paper?.warnings ?? [])])}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-match': MatchStation;
  }
}
