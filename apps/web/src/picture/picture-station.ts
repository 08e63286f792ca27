/**
 * A picture printed four ways: untreated and treated, on the chosen paper and on a paper to match.
 * The picture is the scene of the demonstration or a file; it stays in this tab.
 */
import type { CharacteristicCurve } from '@wedgebook/core';
import { formatNumber, layoutPrintHistogram } from '@wedgebook/charts';
import type { Plan } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { noticeStyles } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import { PictureError } from '../scan/decode/decoded-picture.ts';
import type { ThemeChoice } from '../state/app.ts';
import { AppController } from '../state/app-controller.ts';
import type { BathView } from '../state/derive-bath.ts';
import { memo } from '../state/memo.ts';
import { text } from '../text.ts';
import { picture as t } from '../text/picture.ts';
import { pictureFaults } from '../text/picture-faults.ts';
import { rememberTheme, showTheme } from '../theme/theme.ts';
import { fourPrints, PRINT_IDS, type Print, type PrintId } from './four-prints.ts';
import { negativeTones } from './negative-tones.ts';
import { histogramPrints, panesOf } from './panes.ts';
import type { PictureFacts } from './picture-messages.ts';
import { pictureStyles } from './picture-station.styles.ts';
import { BIN_WIDTH } from './print-shares.ts';
import { endsOf, negativeInput, printInput, type PrintArguments } from './prints-of-notebook.ts';
import type { PrintsView } from './prints-view.ts';
import type { ScreenInk } from './screen-table.ts';
import { sharesTable } from './shares-table.ts';
import type { ToneEncoding } from './tone-picture.ts';
import './prints-view.ts';
import '../parts/number-field.ts';
import '../parts/scene-chart.ts';

const MOST_STOPS = 2;
const LONGEST_BATH = 15;
const ENCODINGS: readonly ToneEncoding[] = ['screen', 'linear'];

@customElement('wb-picture')
export class PictureStation extends LitElement {
  static override styles = [sharedStyles, noticeStyles, pictureStyles];

  @state() private facts: PictureFacts | null = null;
  @state() private busy: string | null = null;
  @state() private fault: string | null = null;
  @state() private positive = true;
  @state() private encoding: ToneEncoding = 'screen';
  @state() private stops = 0;
  @state() private compared: readonly [PrintId, PrintId] = ['untreated-same', 'treated-same'];
  @state() private showDifference = false;
  @state() private tone: number | null = null;
  @query('wb-prints') private readonly view!: PrintsView | null;
  @query('input[type=file]') private readonly fileInput!: HTMLInputElement | null;
  #file: File | null = null;
  #probing = false;

  readonly #negative = memo(
    (
      facts: PictureFacts,
      positive: boolean,
      shadow: number,
      highlight: number,
      film: CharacteristicCurve | null,
      baseFog: number,
    ) => negativeTones(negativeInput(facts, positive, { shadow, highlight }, film, baseFog)),
  );
  readonly #prints = memo((...args: PrintArguments) => fourPrints(printInput(...args)));
  readonly #panes = memo(
    (
      prints: readonly Print[],
      compared: readonly [PrintId, PrintId],
      difference: boolean,
      ink: ScreenInk,
      paper: string,
      minutes: number,
    ) => panesOf(prints, compared, difference, ink, paper, minutes),
  );
  readonly #histogram = memo(
    (
      prints: readonly Print[],
      facts: PictureFacts,
      compared: readonly [PrintId, PrintId],
    ): SceneLayout =>
      (width) =>
        layoutPrintHistogram({
          width,
          height: 280,
          title: t.histogram(t.names[compared[0]], t.names[compared[1]]),
          binWidth: BIN_WIDTH,
          drawn: compared,
          prints: histogramPrints(prints, facts),
        }),
  );

  private readonly app = new AppController(this, ({ document, session }, { bath, derive }) => {
    const { plan } = document;
    const view = bath.view(document, plan.curveFamily, plan.targetGrade);
    const strip = derive.stripOf(document, view.negative?.stripId ?? null);
    const fit = strip === null ? null : derive.fit(document, strip, plan.curveFamily);
    const paper = document.papers.find(({ id }) => id === plan.paperId);
    const paperStrip =
      paper?.source.kind === 'strip' ? derive.stripOf(document, paper.source.stripId) : null;
    return {
      bath: view,
      plan,
      theme: session.theme,
      enlargerFlare: document.printing.enlargerFlare,
      film: fit?.curve ?? null,
      paperCurve:
        paperStrip === null ? null : derive.fit(document, paperStrip, plan.curveFamily).curve,
    };
  });

  protected override firstUpdated(): void {
    void this.openDemo();
  }

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { bath, plan } = view;
    const red = document.documentElement.dataset['theme'] === 'darkroom';
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${t.title}</h2>
        <p class="says">${t.says(bath.negative?.name ?? null)}</p>
      </div>
      <div class="halves">
        <div>
          <div class="notice">
            <p>${t.prediction}</p>
            <p class="quiet">${t.limits}</p>
          </div>
          ${red ? this.redTemplate() : nothing}
        </div>
        <div>${this.sourceTemplate()}</div>
      </div>
      ${this.slidersTemplate(plan)} ${this.printsTemplate(view, red)}
    </section>`;
  }

  private redTemplate(): TemplateResult {
    return html`<div class="notice">
      <p>${t.red}</p>
      <button
        @click=${() => {
          const theme: ThemeChoice = 'dim';
          rememberTheme(theme);
          showTheme(theme);
          this.app.app.session.set({ theme });
        }}
      >
        ${t.leaveRed}
      </button>
    </div>`;
  }

  private sourceTemplate(): TemplateResult {
    const { facts, busy, fault } = this;
    const own = facts !== null && facts.name !== null;
    return html`<div class="source no-print">
        <button @click=${() => void this.openDemo()}>${t.demo}</button>
        <button
          @click=${() => {
            this.fileInput?.click();
          }}
        >
          ${t.open}
        </button>
        <input
          type="file"
          hidden
          accept=".png,.tif,.tiff,.jpg,.jpeg,image/png,image/tiff,image/jpeg"
          aria-label=${t.open}
          @change=${this.onFile}
        />
        ${
          own
            ? html`${choice({
                id: 'kind',
                label: t.kind,
                selected: this.positive ? 'positive' : 'negative',
                options: [
                  ['positive', t.kinds.positive],
                  ['negative', t.kinds.negative],
                ],
                onChoose: (kind) => {
                  this.positive = kind === 'positive';
                },
              })}
              ${choice({
                id: 'encoding',
                label: t.encoding,
                selected: this.encoding,
                options: ENCODINGS.map((each) => [each, t.encodings[each]]),
                onChoose: (encoding) => {
                  this.encoding = encoding as ToneEncoding;
                  if (this.#file !== null) void this.open(this.#file);
                },
              })}`
            : nothing
        }
      </div>
      <p class="quiet small">${t.openHint}</p>
      <div role="status">
        ${busy === null ? nothing : html`<p>${busy}</p>`}
        ${
          facts === null || busy !== null
            ? nothing
            : html`<p>
                ${facts.name === null ? html`<b>${t.demoName}</b>: ${t.demoNote}. ` : nothing}${t.facts(facts)}.
              </p>`
        }
      </div>
      ${fault === null ? nothing : html`<p class="wrong" role="alert">${fault}</p>`}`;
  }

  private slidersTemplate(plan: Plan): TemplateResult {
    return html`<div class="sliders no-print">
      <wb-number
        id="stops"
        label=${t.stops}
        unit=${t.stopsUnit}
        key="picture/stops"
        .value=${this.stops}
        .min=${-MOST_STOPS}
        .max=${MOST_STOPS}
        .step=${0.05}
        .slider=${[-MOST_STOPS, MOST_STOPS] as const}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          this.stops = detail;
        }}
      ></wb-number>
      <wb-number
        id="minutes"
        label=${t.minutes}
        unit=${t.minutesUnit}
        key="picture/minutes"
        .value=${plan.minutes}
        .min=${0}
        .max=${1000}
        .step=${0.25}
        .slider=${[0, LONGEST_BATH] as const}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          const changes = { minutes: detail };
          this.app.app.store.dispatch({ type: 'plan/set', changes, mergeKey: 'picture minutes' });
        }}
      ></wb-number>
    </div>`;
  }

  private printsTemplate(view: StationView, red: boolean): TemplateResult {
    const { facts } = this;
    const prints = facts === null ? [] : this.printsOf(view, facts);
    const ink: ScreenInk = red ? 'red' : 'grey';
    const paper = view.bath.paper?.label ?? text.none;
    const panes =
      facts === null
        ? []
        : this.#panes(prints, this.compared, this.showDifference, ink, paper, view.plan.minutes);
    return html`<wb-prints
        .panes=${panes}
        .facts=${facts}
        .ground=${red ? 0xff000000 : 0xff808080}
        @wb-place=${this.onPlace}
      ></wb-prints>
      ${facts === null ? nothing : this.comparisonTemplate(view, facts, prints)}`;
  }

  private printsOf(view: StationView, facts: PictureFacts): readonly Print[] {
    const { bath, plan, film, paperCurve } = view;
    const { ends, baseFog } = endsOf(bath);
    const negative = this.#negative(
      facts,
      facts.name === null || this.positive,
      ends.shadow,
      ends.highlight,
      baseFog === null ? null : film,
      baseFog ?? 0,
    );
    return this.#prints(
      negative,
      ends.shadow,
      ends.highlight,
      bath,
      plan,
      paperCurve,
      this.stops,
      view.enlargerFlare,
    );
  }

  private comparisonTemplate(
    view: StationView,
    facts: PictureFacts,
    prints: readonly Print[],
  ): TemplateResult {
    const { ends, assumed, baseFog } = endsOf(view.bath);
    const positive = facts.name === null || this.positive;
    const withFilm = view.film !== null && baseFog !== null;
    const names = PRINT_IDS.map((id) => [id, t.names[id]] as const);
    const chooser = (place: 0 | 1, label: string): TemplateResult =>
      choice({
        id: `compared-${place}`,
        label,
        selected: this.compared[place],
        options: names,
        onChoose: (id) => {
          const [first, second] = this.compared;
          const chosen = id as PrintId;
          this.compared = place === 0 ? [chosen, second] : [first, chosen];
        },
      });
    return html`<p class="quiet small">
        ${t.laid(formatNumber(ends.shadow, 2), formatNumber(ends.highlight, 2), withFilm, positive)}
        ${assumed ? t.assumed : nothing}
      </p>
      <div class="compare no-print">
        ${chooser(0, t.difference)} ${chooser(1, t.differenceAnd)}
        <label class="check">
          <input
            type="checkbox"
            .checked=${this.showDifference}
            @change=${(event: Event) => {
              this.showDifference = (event.target as HTMLInputElement).checked;
            }}
          />
          ${t.showDifference}
        </label>
      </div>
      <div class="halves">
        <wb-chart
          id="histogram"
          .layout=${this.#histogram(prints, facts, this.compared)}
        ></wb-chart>
        <div>${sharesTable(facts, prints, this.tone)}</div>
      </div>`;
  }

  private async openDemo(): Promise<void> {
    this.#file = null;
    await this.take(t.drawing, (view) => view.client.demo());
  }

  private readonly onFile = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    if (file !== undefined) void this.open(file);
  };

  private async open(file: File): Promise<void> {
    const done = await this.take(t.reading(file.name), (view) =>
      view.client.file(file, this.encoding),
    );
    if (done) this.#file = file;
  }

  private async take(
    busy: string,
    load: (view: PrintsView) => Promise<PictureFacts>,
  ): Promise<boolean> {
    this.busy = busy;
    this.fault = null;
    await this.updateComplete;
    const { view } = this;
    if (view === null) return false;
    view.client.onRefined = (facts) => {
      this.facts = facts;
      this.tone = null;
    };
    try {
      this.facts = await load(view);
      this.tone = null;
      return true;
    } catch (error) {
      if (!(error instanceof PictureError)) throw error;
      this.fault = pictureFaults[error.fault](error.detail);
      return false;
    } finally {
      this.busy = null;
    }
  }

  /** One question at a time: a moving pointer asks more often than answers come. */
  private readonly onPlace = async ({
    detail,
  }: CustomEvent<{ x: number; y: number } | null>): Promise<void> => {
    if (detail === null || this.#probing || this.view === null) return;
    this.#probing = true;
    this.tone = await this.view.client.probe(detail.x, detail.y);
    this.#probing = false;
  };
}

interface StationView {
  readonly bath: BathView;
  readonly plan: Plan;
  readonly theme: ThemeChoice;
  readonly enlargerFlare: number;
  readonly film: CharacteristicCurve | null;
  readonly paperCurve: CharacteristicCurve | null;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-picture': PictureStation;
  }
}
