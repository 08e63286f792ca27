/**
 * The Callier factor of the reader's own enlarger, from what can be measured in a darkroom: times for
 * one grey, two prints of one negative on one paper under two lights, or two papers that suit it.
 */
import {
  callierFromPapers,
  callierFromPrints,
  callierFromTimes,
  exactly,
  USUAL_PAPER_WHITE,
  type Estimate,
  type GreyPatch,
  type PrintedPair,
  type PrintPaper,
} from '@wedgebook/core';
import { formatNumber } from '@wedgebook/charts';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { estimate, noticeStyles } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { factorErrorOf, paperStripId } from '../state/derive-bath.ts';
import type { StripFit } from '../state/derive.ts';
import { memo } from '../state/memo.ts';
import { callier as words } from '../text/callier.ts';
import '../parts/number-field.ts';

const WAYS = ['times', 'prints', 'papers'] as const;
type Way = (typeof WAYS)[number];
interface Patch {
  readonly density: number | null;
  readonly seconds: number | null;
}
/** A paper whose curve was measured. */
interface KnownPaper {
  readonly name: string;
  readonly paper: PrintPaper;
}
/** The factor of the plan, and the paper that prints would be read by. */
interface InUse {
  readonly factor: number;
  readonly error: number | null;
  readonly paper: KnownPaper | null;
}
const NONE: Patch = { density: null, seconds: null };
const MOST_PATCHES = 8;
/** Two spots of a print as typed. */
interface Spots {
  readonly highlight: number | null;
  readonly shadow: number | null;
}
const NO_SPOTS: Spots = { highlight: null, shadow: null };
/** A densitometer's usual scatter, as for pairs of strips (see core's pair-strips.ts); it can be changed. */
const USUAL_READING_ERROR = 0.01;
/** Factors that an enlarger can have; what the field of the factor takes. */
const POSSIBLE = [1, 2] as const;
/** A factor known no better than this tells nothing; what the field of its error takes. */
const MOST_ERROR = 0.5;

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
  @state() private prints: Readonly<Record<'own' | 'diffuse', Spots>> = {
    own: NO_SPOTS,
    diffuse: NO_SPOTS,
  };
  @state() private readingError = USUAL_READING_ERROR;
  readonly #paper = memo(
    (name: string, exposureScale: number, fit: StripFit): KnownPaper | null =>
      fit.curve && { name, paper: { kind: 'strip', exposureScale, curve: fit.curve } },
  );
  private readonly app = new AppController(this, ({ document }, { derive, bath }) => {
    const { plan, papers, printing } = document;
    const { paper } = bath.view(document, plan.curveFamily, plan.targetGrade);
    const source = papers.find(({ id }) => id === plan.paperId)?.source;
    const ofStrips = source?.kind === 'strip' || source?.kind === 'strips' ? source : null;
    const strip = derive.stripOf(document, ofStrips && paperStripId(ofStrips, printing.setting));
    const known = strip !== null && paper?.origin === 'strip';
    return {
      factor: plan.callierFactor,
      error: factorErrorOf(plan),
      paper: known
        ? this.#paper(
            paper.label,
            paper.exposureScale.value,
            derive.fit(document, strip, plan.curveFamily),
          )
        : null,
    };
  });

  protected override render(): TemplateResult | typeof nothing {
    const inUse = this.app.value;
    if (inUse === undefined) return nothing;
    return html`<details>
      <summary>${words.title}</summary>
      ${choice({
        id: 'way',
        label: words.way,
        selected: this.way,
        options: WAYS.map((way) => [way, words.ways[way]]),
        onChoose: (way) => {
          this.way = WAYS.find((each) => each === way) ?? 'times';
        },
      })}
      <p>${words.how[this.way]}</p>
      ${this.fieldsTemplate(inUse.paper)} ${this.resultTemplate(inUse)}
    </details>`;
  }

  private fieldsTemplate(paper: KnownPaper | null): TemplateResult {
    if (this.way === 'times') return this.timesTemplate();
    return this.way === 'papers' ? this.papersTemplate() : this.printsTemplate(paper);
  }

  private printsTemplate(known: KnownPaper | null): TemplateResult {
    if (known === null) return html`<p class="wrong">${words.prints.noPaper}</p>`;
    const field = (light: 'own' | 'diffuse', spot: keyof Spots): TemplateResult =>
      html`<wb-number
        label=${words.prints[light][spot]}
        unit=${words.prints.unit}
        key=${`callier/print-${light}-${spot}`}
        optional
        .value=${this.prints[light][spot]}
        .min=${0}
        .max=${4}
        .step=${0.01}
        .decimals=${3}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          this.prints = { ...this.prints, [light]: { ...this.prints[light], [spot]: detail } };
        }}
      ></wb-number>`;
    return html`<p>${words.prints.onPaper(known.name)}</p>
      <div class="fields">${field('own', 'highlight')} ${field('own', 'shadow')}</div>
      <div class="fields">${field('diffuse', 'highlight')} ${field('diffuse', 'shadow')}</div>
      <div class="fields">
        <wb-number
          label=${words.prints.reading}
          unit=${words.prints.readingUnit}
          key="callier/reading-error"
          .value=${this.readingError}
          .min=${0}
          .max=${0.2}
          .step=${0.005}
          .decimals=${3}
          @wb-value=${({ detail }: CustomEvent<number>) => {
            this.readingError = detail;
          }}
        ></wb-number>
      </div>`;
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
  private measured(known: KnownPaper | null): Estimate | 'outside' | null {
    if (this.way === 'prints') return this.byPrints(known);
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

  private byPrints(known: KnownPaper | null): Estimate | 'outside' | null {
    const pair = ({ highlight, shadow }: Spots): PrintedPair | null =>
      highlight === null || shadow === null
        ? null
        : {
            highlightPrintDensity: { value: highlight, standardError: this.readingError },
            shadowPrintDensity: { value: shadow, standardError: this.readingError },
          };
    const [diffuse, own] = [pair(this.prints.diffuse), pair(this.prints.own)];
    if (known === null || diffuse === null || own === null) return null;
    // The white is that of the strip; the usual one is never asked for.
    return callierFromPrints(known.paper, diffuse, own, USUAL_PAPER_WHITE) ?? 'outside';
  }

  private resultTemplate(inUse: InUse): TemplateResult | typeof nothing {
    const measured = this.measured(inUse.paper);
    if (measured === 'outside') return html`<p class="wrong">${words.prints.outside}</p>`;
    if (measured === null) {
      return this.way === 'prints' && inUse.paper === null
        ? nothing
        : html`<p class="quiet">${words.missing[this.way]}</p>`;
    }
    const [factor, error] = [
      rounded(measured.value, 1000),
      // A digit more, so that a small error is not taken for none.
      measured.standardError === null ? null : rounded(measured.standardError, 10_000),
    ];
    const [least, most] = POSSIBLE;
    const possible = factor >= least && factor <= most;
    const unsure = error !== null && error > MOST_ERROR;
    const used = possible && factor === inUse.factor && error === inUse.error;
    return html`<p id="measured" role="status">
        ${words.measured} <b>${estimate(measured, 3)}</b>.
        ${measured.standardError === null ? words.noError : nothing}
        ${possible ? nothing : words.impossible(formatNumber(least, 0), formatNumber(most, 0))}
        ${unsure ? words.unsure : nothing}
      </p>
      <button
        id="use"
        ?disabled=${!possible || unsure || used}
        @click=${() => {
          const changes = { callierFactor: factor, callierFactorError: error };
          this.app.app.store.dispatch({ type: 'plan/set', changes });
          this.app.say(words.taken(factor, error));
        }}
      >
        ${used ? words.inUse : words.use}
      </button>`;
  }
}

const rounded = (value: number, parts: number): number => Math.round(parts * value) / parts;

declare global {
  interface HTMLElementTagNameMap {
    'wb-callier': CallierMeasured;
  }
}
