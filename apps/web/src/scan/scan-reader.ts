/**
 * Reads a strip from a scan or photograph in which a known tablet lies beside it: open, mark, read,
 * and put into the notebook as one step of undo.
 */
import { layoutScanResponse } from '@wedgebook/charts';
import { nominalTablets } from '@wedgebook/data';
import { tabletLookup, type Strip } from '@wedgebook/notebook';
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { noticeStyles } from '../parts/notices.ts';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { memo } from '../state/memo.ts';
import { pictureFaults } from '../text/picture-faults.ts';
import { scan as t } from '../text/scan.ts';
import { newStrip } from '../worksheet/new-entries.ts';
import { PictureError, type PictureChannel } from './decode/decoded-picture.ts';
import {
  ENDS,
  firstMarks,
  moveEnd,
  setWidth,
  STRIP_KINDS,
  turned,
  type EndKind,
  type MarkedEnd,
  type Marks,
  type StripKind,
} from './marks.ts';
import { ScanClient } from './scan-client.ts';
import type { ScanAnswer, ScanFacts } from './scan-messages.ts';
import { scanReaderStyles } from './scan-reader.styles.ts';
import { errorText, resultTemplate } from './scan-result.ts';
import { stripOfScan } from './strip-of-scan.ts';
import './scan-picture.ts';
import '../parts/number-field.ts';
import '../parts/scene-chart.ts';

const CHANNELS: readonly PictureChannel[] = ['mean', 'red', 'green', 'blue'];
const DEFAULT_TABLET = 'nominal-21';

@customElement('wb-scan')
export class ScanReader extends LitElement {
  static override styles = [sharedStyles, noticeStyles, scanReaderStyles];

  @state() private facts: ScanFacts | null = null;
  @state() private fileName = '';
  @state() private bitmap: ImageBitmap | null = null;
  @state() private marks: Marks | null = null;
  @state() private next: MarkedEnd = { kind: 'tablet', end: 'from' };
  @state() private busy: string | null = null;
  @state() private fault: string | null = null;
  @state() private answer: ScanAnswer | null = null;
  @state() private channel: PictureChannel = 'mean';
  @state() private inverted = false;
  @state() private material: Strip['material'] = 'film';
  /** The tablet in the picture, and the one that the strip was exposed through. */
  @state() private tablets: Readonly<Record<StripKind, string>> = {
    tablet: DEFAULT_TABLET,
    strip: DEFAULT_TABLET,
  };
  @query('input[type=file]') private readonly fileInput!: HTMLInputElement | null;
  #client: ScanClient | null = null;
  #previewRed = false;

  readonly #chart = memo((answer: ScanAnswer): SceneLayout | null =>
    answer.status === 'ok' ? (width) => chartOf(answer, width) : null,
  );

  private readonly app = new AppController(this, ({ document, session }) => ({
    own: document.tablets,
    theme: session.theme,
  }));

  private get red(): boolean {
    return document.documentElement.dataset['theme'] === 'darkroom';
  }

  protected override willUpdate(changed: PropertyValues): void {
    // Any change of the question makes an answer stale.
    const asked = ['marks', 'channel', 'inverted', 'tablets'];
    if (asked.some((name) => changed.has(name))) this.answer = null;
  }

  protected override render(): TemplateResult {
    const { facts, fault, busy } = this;
    return html`<p>${t.intro}</p>
      <div class="row">
        <button
          @click=${() => {
            this.fileInput?.click();
          }}
        >
          ${t.open}
        </button>
        <span class="quiet small">${t.openHint}</span>
        <input
          type="file"
          hidden
          accept=".png,.tif,.tiff,.jpg,.jpeg,image/png,image/tiff,image/jpeg"
          aria-label=${t.open}
          @change=${this.onFile}
        />
      </div>
      <div role="status">${busy === null ? nothing : html`<p>${busy}</p>`}</div>
      ${fault === null ? nothing : html`<p class="wrong" role="alert">${fault}</p>`}
      ${facts === null ? nothing : this.markTemplate(facts)}`;
  }

  private markTemplate(facts: ScanFacts): TemplateResult {
    const { marks, next, answer } = this;
    const rows = answer?.status === 'ok' ? answer.rows : null;
    return html`<p class="quiet">
        ${t.facts(this.fileName, facts)} ${facts.bits <= 8 ? t.eightBits : nothing}
      </p>
      ${this.choicesTemplate(facts)}
      <fieldset>
        <legend class="label">${t.mark}</legend>
        <div class="row">
          ${ENDS.map(
            (each) =>
              html`<label class="check"
                ><input
                  type="radio"
                  name="end"
                  .checked=${each.kind === next.kind && each.end === next.end}
                  @change=${() => {
                    this.next = each;
                  }}
                />${t.ends[each.end](each.kind)}</label
              >`,
          )}
        </div>
      </fieldset>
      <p class="quiet small">${t.markHint}</p>
      <wb-scan-picture
        .facts=${facts}
        .bitmap=${this.bitmap}
        .marks=${marks}
        .rows=${rows}
        .next=${next}
        ?red=${this.red}
        @wb-end=${this.onEnd}
      ></wb-scan-picture>
      ${marks === null ? nothing : this.placesTemplate(marks, facts)}
      <div class="actions">
        <button class="primary" ?disabled=${this.busy !== null} @click=${() => void this.read()}>
          ${t.read}
        </button>
      </div>
      ${
        answer === null
          ? nothing
          : resultTemplate(answer, this.#chart(answer), () => {
              this.take();
            })
      }`;
  }

  private choicesTemplate({ channels }: ScanFacts): TemplateResult {
    const named = [...nominalTablets, ...(this.app.value?.own ?? [])];
    const tabletChoice = (kind: StripKind, label: string): TemplateResult =>
      choice({
        id: `${kind}-tablet`,
        label,
        selected: this.tablets[kind],
        options: named.map(({ id, name }) => [id, name] as const),
        onChoose: (id) => {
          this.tablets = { ...this.tablets, [kind]: id };
        },
      });
    return html`<div class="fields">
      ${tabletChoice('tablet', t.knownTablet)} ${tabletChoice('strip', t.stripTablet)}
      ${choice({
        id: 'material',
        label: t.material,
        selected: this.material,
        options: [
          ['film', t.materials.film],
          ['paper', t.materials.paper],
        ],
        onChoose: (material) => {
          this.material = material as Strip['material'];
        },
      })}
      ${
        channels < 3
          ? nothing
          : choice({
              id: 'channel',
              label: t.channel,
              selected: this.channel,
              options: CHANNELS.map((each) => [each, t.channels[each]]),
              onChoose: (channel) => {
                this.channel = channel as PictureChannel;
              },
            })
      }
      <label class="check"
        ><input
          type="checkbox"
          .checked=${this.inverted}
          @change=${(event: Event) => {
            this.inverted = (event.target as HTMLInputElement).checked;
            void this.showPreview();
          }}
        />${t.inverted}</label
      >
    </div>`;
  }

  private placesTemplate(marks: Marks, facts: ScanFacts): TemplateResult {
    const field = (
      kind: StripKind,
      name: keyof typeof t.placeFields,
      value: number,
      most: number,
      set: (value: number) => void,
    ): TemplateResult =>
      html`<wb-number
        label=${t.placeFields[name]}
        unit=${t.pixels}
        key=${`scan/${kind}/${name}`}
        .value=${value}
        .min=${name === 'width' ? 4 : 0}
        .max=${most}
        .step=${1}
        .decimals=${0}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          set(detail);
        }}
      ></wb-number>`;
    const move = (kind: StripKind, end: EndKind, changes: { x?: number; y?: number }): void => {
      this.marks = moveEnd(marks, { kind, end }, { ...marks[kind][end], ...changes });
    };
    const { width, height } = facts;
    return html`<details>
      <summary>${t.places}</summary>
      ${STRIP_KINDS.map((kind) => {
        const { from, to, width: across } = marks[kind];
        return html`<h3>${t.kinds[kind]}</h3>
          <div class="fields places">
            ${field(kind, 'fromX', from.x, width, (x) => {
              move(kind, 'from', { x });
            })}
            ${field(kind, 'fromY', from.y, height, (y) => {
              move(kind, 'from', { y });
            })}
            ${field(kind, 'toX', to.x, width, (x) => {
              move(kind, 'to', { x });
            })}
            ${field(kind, 'toY', to.y, height, (y) => {
              move(kind, 'to', { y });
            })}
            ${field(kind, 'width', across, Math.max(width, height), (value) => {
              this.marks = setWidth(marks, kind, value);
            })}
            <button
              @click=${() => {
                this.marks = turned(marks, kind);
              }}
            >
              ${t.turn(kind)}
            </button>
          </div>`;
      })}
    </details>`;
  }

  private readonly onFile = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    if (file !== undefined) void this.open(file);
  };

  private async open(file: File): Promise<void> {
    this.busy = t.opening(file.name);
    this.fault = null;
    try {
      this.#client ??= new ScanClient();
      const facts = await this.#client.open(file);
      this.facts = facts;
      this.fileName = file.name;
      this.channel = 'mean';
      this.next = { kind: 'tablet', end: 'from' };
      this.marks = firstMarks(facts.width, facts.height);
      await this.showPreview();
    } catch (error) {
      if (!(error instanceof PictureError)) throw error;
      this.fault = pictureFaults[error.fault](error.detail);
    } finally {
      this.busy = null;
    }
  }

  protected override updated(): void {
    // Red on black must show no other light, whenever it is chosen.
    if (this.bitmap !== null && this.#previewRed !== this.red) void this.showPreview();
  }

  private async showPreview(): Promise<void> {
    this.#previewRed = this.red;
    const bitmap = await this.#client?.preview(this.red ? 'red' : 'grey', this.inverted);
    this.bitmap = bitmap ?? null;
  }

  private readonly onEnd = ({
    detail,
  }: CustomEvent<MarkedEnd & { point: { x: number; y: number }; advance: boolean }>): void => {
    if (this.marks === null) return;
    this.marks = moveEnd(this.marks, detail, detail.point);
    const index = ENDS.findIndex(({ kind, end }) => kind === detail.kind && end === detail.end);
    if (detail.advance) this.next = ENDS[(index + 1) % ENDS.length] ?? this.next;
  };

  private densitiesOf(kind: StripKind): readonly number[] {
    return tabletLookup(this.app.app.store.state.document)(this.tablets[kind]) ?? [];
  }

  private async read(): Promise<void> {
    const client = this.#client;
    const { marks, channel, inverted } = this;
    if (client === null || marks === null) return;
    const tabletDensities = this.densitiesOf('tablet');
    this.busy = t.reading;
    this.fault = null;
    try {
      const answer = await client.read({
        tablet: { place: marks.tablet, count: tabletDensities.length },
        tabletDensities,
        strip: { place: marks.strip, count: this.densitiesOf('strip').length },
        channel,
        inverted,
      });
      if (this.marks === marks) this.answer = answer;
    } catch {
      this.fault = t.failed;
    } finally {
      this.busy = null;
    }
  }

  /** Puts the readings into the notebook; the strip is then the one that is shown. */
  private take(): void {
    const { answer } = this;
    if (answer?.status !== 'ok') return;
    const { store, session } = this.app.app;
    const { document } = store.state;
    const like = document.strips.find(({ id }) => id === session.value.stripId) ?? null;
    const unread = newStrip(document, like, this.material);
    const name = t.stripName(unread.name);
    const tablet = [...nominalTablets, ...document.tablets].find(
      ({ id }) => id === this.tablets.tablet,
    );
    const errors = answer.steps.flatMap(({ standardError }) => standardError ?? []);
    const entry = stripOfScan({
      unread,
      name,
      tabletId: this.tablets.strip,
      steps: answer.steps,
      channel: this.channel,
      note: t.note(
        this.fileName,
        tablet?.name ?? this.tablets.tablet,
        t.channels[this.channel],
        errorText(Math.min(...errors)),
        errorText(Math.max(...errors)),
      ),
    });
    store.dispatch({ type: 'strip/add', entry });
    store.endMerge();
    session.set({ stripId: entry.id, announcement: { says: t.taken(name) } });
  }
}

function chartOf(answer: Extract<ScanAnswer, { status: 'ok' }>, width: number) {
  return layoutScanResponse({
    width,
    height: 320,
    title: t.responseTitle,
    curve: answer.curve,
    tablet: answer.tablet.flatMap(({ step, density, darkness, difference }) =>
      density === null ? [] : [{ step, density, darkness, difference }],
    ),
    strip: answer.steps.flatMap(({ density, darkness }) =>
      density === null ? [] : [{ density, darkness }],
    ),
  });
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-scan': ScanReader;
  }
}
