/** Soft and hard light: seconds of each before and after the bath, what each governs, test strips. */
import { formatNumber } from '@wedgebook/charts';
import {
  splitTestPlan,
  splitTones,
  type SplitForPrint,
  type TestStripPatch,
} from '@wedgebook/core';
import { builtInSplit } from '@wedgebook/data';
import type { Printing } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles, sourceMark } from '../parts/notices.ts';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import type { PrintingView } from '../state/derive-printing.ts';
import type { SplitSeconds, SplitView } from '../state/derive-split.ts';
import { setPrinting } from '../state/set-printing.ts';
import { split as words } from '../text/split.ts';
import '../parts/number-field.ts';

const PATCHES = 7;
const STEPS = [
  ['0.25', '¼ stop'],
  ['0.3333333333', '⅓ stop'],
  ['0.5', '½ stop'],
] as const;

@customElement('wb-split')
export class SplitPart extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      #split {
        min-width: 34rem;
      }
      .fields {
        margin: 0.75rem 0;
        align-items: start;
      }
      small {
        display: block;
        color: var(--quiet);
        font-size: 0.875rem;
      }
    `,
  ];

  /** The print, from the station. */
  @property({ attribute: false }) view: PrintingView | null = null;
  @property({ attribute: false }) split: SplitView | null = null;
  @state() private step: string = STEPS[1][0];

  private readonly app = new AppController(this, ({ document }) => document.printing);

  protected override render(): TemplateResult | typeof nothing {
    const printing = this.app.value;
    const { split, view } = this;
    if (printing === undefined || view === null || split === null) return nothing;
    return html`<h3>${words.title}</h3>
      <p>${split.own ? words.own : words.builtIn}</p>
      ${split.own ? nothing : html`<p>${sourceMark(builtInSplit.provenance)}</p>`}
      ${split.own ? nothing : this.timesTemplate(printing)} ${this.tableTemplate(split, printing)}
      ${[
        [split.before, words.before],
        [split.after, words.after],
      ].map(([one, when]) => reasonTemplate(one as SplitForPrint, when as string))}
      ${split.leftOut.length > 0 ? html`<p>${words.leftOut(split.leftOut)}</p>` : nothing}
      ${perStopTemplate(split, view)} ${this.testTemplate(split)}`;
  }

  private timesTemplate(printing: Printing): TemplateResult {
    const field = (name: 'softAloneSeconds' | 'hardAloneSeconds', label: string) =>
      html`<wb-number
        id=${name}
        label=${label}
        unit=${words.seconds}
        key=${`printing/${name}`}
        optional
        .value=${printing[name]}
        .min=${0.1}
        .max=${3600}
        .step=${1}
        .decimals=${1}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          this.set({ [name]: detail }, name);
        }}
      ></wb-number>`;
    return html`<div class="fields">
        ${field('softAloneSeconds', words.softAlone)} ${field('hardAloneSeconds', words.hardAlone)}
      </div>
      <p class="quiet small">${words.aloneHelp}</p>`;
  }

  private tableTemplate(split: SplitView, printing: Printing): TemplateResult {
    const rows = [
      [words.before, split.before],
      [words.after, split.after],
    ] as const;
    return framedTable({
      label: words.table,
      id: 'split',
      head: headRow(
        [words.negative],
        [words.soft, words.hard, words.ratio, words.scale],
        html`<th scope="col"><span class="visually-hidden">${words.take}</span></th>`,
      ),
      body: rows.map(([name, one]) => {
        if (one.status !== 'ok') return nothing;
        const seconds = split.seconds(one);
        return html`<tr>
          <th scope="row">${name}</th>
          <td class="number">
            ${seconds === null ? html`<span class="quiet">${words.noTimes}</span>` : estimate(seconds.soft, 1)}
          </td>
          <td class="number">${estimate(seconds?.hard, 1)}</td>
          <td class="number">
            ${one.hardOverSoftStops.standardError === null ? words.signed(one.hardOverSoftStops.value) : estimate(one.hardOverSoftStops, 2)}
          </td>
          <td class="number">${formatNumber(100 * one.exposureScale, 0)}</td>
          <td>${seconds === null ? nothing : this.takeTemplate(seconds, printing)}</td>
        </tr>`;
      }),
    });
  }

  private takeTemplate({ soft, hard }: SplitSeconds, printing: Printing): TemplateResult {
    const rounded = (seconds: number) => Math.max(0.1, Math.round(10 * seconds) / 10);
    const own = { softSeconds: rounded(soft.value), hardSeconds: rounded(hard.value) };
    const taken =
      printing.softSeconds === own.softSeconds && printing.hardSeconds === own.hardSeconds;
    return html`<button
      class="no-print"
      aria-pressed=${taken}
      @click=${() => {
        this.set(taken ? { softSeconds: null, hardSeconds: null } : own);
      }}
    >
      ${taken ? words.drop : words.take}
    </button>`;
  }

  private testTemplate(split: SplitView): TemplateResult | typeof nothing {
    const chosen = split.after.status === 'ok' ? split.after : split.before;
    const seconds = split.seconds(chosen);
    if (seconds === null) return nothing;
    const plan = splitTestPlan(seconds.soft.value, seconds.hard.value, Number(this.step), PATCHES);
    const cells = (patches: readonly TestStripPatch[]) =>
      patches.map(
        ({ totalSeconds, additionalSeconds }) =>
          html`<td class="number">
            ${formatNumber(totalSeconds, 1)}<small>+${formatNumber(additionalSeconds, 1)}</small>
          </td>`,
      );
    return html`<h3>${words.testTitle}</h3>
      <p>${words.testSays}</p>
      ${choice({
        id: 'test-step',
        label: words.step,
        selected: this.step,
        options: STEPS,
        onChoose: (step) => {
          this.step = step;
        },
      })}
      ${framedTable({
        label: words.testTable,
        head: headRow(
          [words.patches],
          plan.soft.map((_, i) => String(i + 1)),
        ),
        body: html`<tr>
            <th scope="row">${words.softStrip}</th>
            ${cells(plan.soft)}
          </tr>
          <tr>
            <th scope="row">${words.hardStrip(formatNumber(plan.hard.softSeconds, 1))}</th>
            ${cells(plan.hard.patches)}
          </tr>`,
      })}`;
  }

  private set(changes: Partial<Printing>, gesture = ''): void {
    setPrinting(this.app.app, changes, gesture);
  }
}

function reasonTemplate(split: SplitForPrint, when: string): TemplateResult | typeof nothing {
  const reason = words.reason(split, when);
  return reason === '' ? nothing : html`<p class="wrong">${reason}</p>`;
}

function perStopTemplate(
  { layers, before, after }: SplitView,
  view: PrintingView,
): TemplateResult | typeof nothing {
  const one = before.status === 'ok' ? before : after;
  const tones = before.status === 'ok' ? view.tones.before : view.tones.after;
  if (one.status !== 'ok') return nothing;
  const [thin, dense] = [tones.shadow.negativeDensity.value, tones.highlight.negativeDensity.value];
  const shown = splitTones(layers, one.lights, [dense, 0.5 * (thin + dense), thin]);
  const names = [words.highlight, words.middle, words.shadow];
  return html`<h3>${words.perStopTitle}</h3>
    <p>${words.governs(shown[0]?.softShare ?? 0, shown[2]?.softShare ?? 0)}</p>
    ${framedTable({
      label: words.perStopTable,
      id: 'per-stop',
      head: headRow([words.tone], [words.prints, words.softStop, words.hardStop]),
      body: shown.map(
        ({ printDensity, perStop }, i) =>
          html`<tr>
            <th scope="row">${names[i]}</th>
            <td class="number">${formatNumber(printDensity, 2)}</td>
            <td class="number">${words.signed(perStop.soft)}</td>
            <td class="number">${words.signed(perStop.hard)}</td>
          </tr>`,
      ),
    })}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-split': SplitPart;
  }
}
