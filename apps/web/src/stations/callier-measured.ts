/**
 * The Callier factor of the reader's own enlarger, from what can be measured in a darkroom: times for
 * one grey, or two papers that suit one negative under two lights.
 */
import {
  callierFromPapers,
  callierFromTimes,
  exactly,
  type Estimate,
  type GreyPatch,
} from '@wedgebook/core';
import { formatNumber } from '@wedgebook/charts';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { callier as words } from '../text/callier.ts';
import '../parts/number-field.ts';

type Way = 'times' | 'papers';
interface Patch {
  readonly density: number | null;
  readonly seconds: number | null;
}
const NONE: Patch = { density: null, seconds: null };
const MOST_PATCHES = 8;
/** Factors that an enlarger can have; what the field of the factor takes. */
const POSSIBLE = [1, 2] as const;

@customElement('wb-callier')
export class CallierMeasured extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      .fields {
        margin: 0.5rem 0;
        align-items: end;
      }
    `,
  ];

  @state() private way: Way = 'times';
  @state() private patches: readonly Patch[] = [NONE, NONE, NONE];
  @state() private scales: readonly [number | null, number | null] = [null, null];
  private readonly app = new AppController(this, ({ document }) => document.plan.callierFactor);

  protected override render(): TemplateResult | typeof nothing {
    const inUse = this.app.value;
    if (inUse === undefined) return nothing;
    return html`<details>
      <summary>${words.title}</summary>
      ${choice({
        id: 'way',
        label: words.way,
        selected: this.way,
        options: [
          ['times', words.ways.times],
          ['papers', words.ways.papers],
        ],
        onChoose: (way) => {
          this.way = way === 'papers' ? 'papers' : 'times';
        },
      })}
      <p>${words.how[this.way]}</p>
      ${this.way === 'times' ? this.timesTemplate() : this.papersTemplate()}
      ${this.resultTemplate(this.measured(), inUse)}
    </details>`;
  }

  private timesTemplate(): TemplateResult {
    const change = (index: number, changes: Partial<Patch>): void => {
      this.patches = this.patches.map((patch, i) =>
        i === index ? { ...patch, ...changes } : patch,
      );
    };
    return html`${this.patches.map(
        ({ density, seconds }, index) =>
          html`<div class="fields">
            <wb-number
              label=${words.density(index + 1)}
              key=${`callier/density-${index}`}
              optional
              .value=${density}
              .min=${0}
              .max=${6}
              .step=${0.05}
              .decimals=${2}
              @wb-value=${({ detail }: CustomEvent<number | null>) => {
                change(index, { density: detail });
              }}
            ></wb-number>
            <wb-number
              label=${words.seconds(index + 1)}
              unit=${words.secondsUnit}
              key=${`callier/seconds-${index}`}
              optional
              .value=${seconds}
              .min=${0.1}
              .max=${36000}
              .step=${1}
              .decimals=${1}
              @wb-value=${({ detail }: CustomEvent<number | null>) => {
                change(index, { seconds: detail });
              }}
            ></wb-number>
          </div>`,
      )}
      <button
        ?disabled=${this.patches.length >= MOST_PATCHES}
        @click=${() => {
          this.patches = [...this.patches, NONE];
        }}
      >
        ${words.another}
      </button>`;
  }

  private papersTemplate(): TemplateResult {
    const field = (which: 0 | 1): TemplateResult =>
      html`<wb-number
        label=${words.scales[which]}
        unit=${words.scaleUnit}
        key=${`callier/scale-${which}`}
        optional
        .value=${this.scales[which]}
        .min=${0.3}
        .max=${3}
        .step=${0.05}
        .decimals=${2}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          const [own, diffuse] = this.scales;
          this.scales = which === 0 ? [detail, diffuse] : [own, detail];
        }}
      ></wb-number>`;
    return html`<div class="fields">${field(0)} ${field(1)}</div>`;
  }

  /** Null until enough is typed. */
  private measured(): Estimate | null {
    if (this.way === 'papers') {
      const [own, diffuse] = this.scales;
      if (own === null || diffuse === null) return null;
      return callierFromPapers(exactly(own), exactly(diffuse));
    }
    const whole = this.patches.filter(
      (patch): patch is GreyPatch => patch.density !== null && patch.seconds !== null,
    );
    const densities = whole.map(({ density }) => density);
    if (!(Math.max(...densities) - Math.min(...densities) > 0.05)) return null;
    return callierFromTimes(whole);
  }

  private resultTemplate(measured: Estimate | null, inUse: number): TemplateResult {
    if (measured === null) return html`<p class="quiet">${words.missing[this.way]}</p>`;
    const factor = Math.round(1000 * measured.value) / 1000;
    const [least, most] = POSSIBLE;
    const possible = factor >= least && factor <= most;
    const used = possible && factor === inUse;
    return html`<p id="measured" role="status">
        ${words.measured} <b>${estimate(measured, 3)}</b>.
        ${measured.standardError === null ? words.noError : nothing}
        ${possible ? nothing : words.impossible(formatNumber(least, 0), formatNumber(most, 0))}
      </p>
      <button
        id="use"
        ?disabled=${!possible || used}
        @click=${() => {
          this.app.app.store.dispatch({ type: 'plan/set', changes: { callierFactor: factor } });
          this.app.app.session.set({ announcement: words.taken(factor) });
        }}
      >
        ${used ? words.inUse : words.use}
      </button>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-callier': CallierMeasured;
  }
}
