/**
 * A labelled number with its unit, optionally with a slider. What cannot be read stays in the
 * field as typed, is kept with the notebook, and is told in one sentence; the last good value
 * stays in force until then. So it is with an entry with units while what reads units is fetched.
 *
 * @fires wb-value - the user gave a readable value; detail is a number, or null when emptied
 */
import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { AppController } from '../state/app-controller.ts';
import type { WorkDocument } from '../state/work.ts';
import { parseNumber, shortest } from '../worksheet/parse-cell.ts';
import { text } from '../text.ts';
import { readerOf, ReaderMissingError, type QuantityReader } from './quantities.ts';
import { sharedStyles } from './styles.ts';

/** An entry with units that is being read. */
interface Waiting {
  readonly typed: string;
  /** The notebook before the entry. */
  readonly before: WorkDocument;
}

/** Entries that were never read, by key: the field was left for another before it could be. */
const unread = new Map<string, string>();

/**
 * Each field is a form of its own, so that the browser's form filling looks at one field after a
 * keystroke and not at all of the page; it is never sent.
 */
const neverSent = (event: Event): void => {
  event.preventDefault();
};

@customElement('wb-number')
export class NumberField extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .row {
        display: flex;
        align-items: center;
        gap: 0.5rem;
      }
      input[type='text'] {
        width: var(--field-width, 6.5rem);
        text-align: end;
      }
      input[type='range'] {
        flex: 1 1 8rem;
        min-width: 6rem;
        width: 100%;
      }
      .unit {
        color: var(--quiet);
      }
      .wrong,
      .waits {
        font-size: 0.875rem;
        max-width: 30ch;
      }
    `,
  ];

  @property() label = '';
  /** Unit after the field. */
  @property() unit = '';
  /** What stands before the field, e.g. `1+`. */
  @property() lead = '';
  /** Key under which an unreadable entry is kept. */
  @property() key = '';
  @property({ attribute: false }) value: number | null = null;
  @property({ type: Number }) min = Number.NEGATIVE_INFINITY;
  @property({ type: Number }) max = Number.POSITIVE_INFINITY;
  @property({ type: Number }) step = 0.1;
  @property({ type: Number }) decimals = 2;
  /** Decimals that are always shown. */
  @property({ type: Number }) least = 0;
  /** Slider limits; no slider where absent. */
  @property({ attribute: false }) slider: readonly [number, number] | null = null;
  @property({ type: Boolean }) optional = false;
  /** The label is there for those who do not see the field's place. */
  @property({ type: Boolean }) bare = false;
  /** Gives the value when the field is left, not while typing, and is empty again. */
  @property({ type: Boolean }) once = false;
  @state() private typed: string | null = null;
  @state() private fault: string | null = null;
  /** The entry that the notebook keeps as typed, as this field last showed or wrote it. */
  private kept: string | undefined;
  /** Where the figure stood before what is being typed: there it goes back if that is refused. */
  private begun: { readonly value: number | null; readonly document: WorkDocument } | null = null;
  /** The notebook as it was when the present entry began. */
  private start: WorkDocument | null = null;
  @state() private waiting: Waiting | null = null;
  /** The figure that this field itself gave last. */
  private told: number | null | undefined;

  private readonly app = new AppController(this, ({ document }) => document.asTyped?.[this.key]);

  /** The focus goes to the field itself. */
  override focus(options?: FocusOptions): void {
    this.renderRoot.querySelector<HTMLInputElement>('#field')?.focus(options);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    // Undo, another notebook or another entry under the same field: what was typed here is over.
    const kept = this.app.now;
    if (kept !== this.kept || (changed.has('key') && this.hasUpdated)) {
      this.kept = kept;
      this.typed = null;
      this.fault = null;
      this.endEntry();
    }
    // A value from elsewhere (undo, a slider) replaces what was typed, unless that says the same.
    if (changed.has('value') && this.typed !== null && !Object.is(this.value, this.told)) {
      const parsed = parseNumber(this.typed);
      const same = parsed.status === 'read' && parsed.value === this.value;
      if (!same && !(parsed.status === 'empty' && this.value === null)) this.typed = null;
    }
  }

  protected override render(): TemplateResult {
    // What is being typed stands before what was kept, or the field could not be corrected.
    const shown = this.typed ?? this.kept ?? this.inForce;
    const waits = this.waiting === null ? null : text.field.waits(this.waiting.typed);
    const why = waits ?? this.fault ?? this.faultOf(this.kept);
    const { inForce } = this;
    const says =
      why === null || inForce === ''
        ? why
        : `${why} ${text.wrong.inForce(`${this.lead}${inForce}`)}`;
    const isWrong = says !== null && waits === null;
    return html`<label for="field" class=${this.bare ? 'visually-hidden' : ''}>${this.label}</label>
      <form class="row" @submit=${neverSent}>
        ${this.lead === '' ? nothing : html`<span class="unit">${this.lead}</span>`}
        <input
          id="field"
          type="text"
          inputmode="decimal"
          autocomplete="off"
          .value=${live(shown)}
          aria-invalid=${isWrong ? 'true' : nothing}
          aria-describedby=${says === null ? 'unit' : isWrong ? 'fault' : 'waits'}
          @input=${this.onInput}
          @change=${this.onChange}
          @keydown=${this.onKey}
        />
        <span class="unit" id="unit">${this.unit}</span>
        ${this.sliderTemplate()}
      </form>
      ${isWrong ? html`<div class="wrong" id="fault">${says}</div>` : nothing}
      ${waits === null ? nothing : html`<div class="waits" id="waits">${says}</div>`}`;
  }

  private sliderTemplate(): TemplateResult | typeof nothing {
    if (this.slider === null) return nothing;
    const [low, high] = this.slider;
    return html`<input
      type="range"
      min=${low}
      max=${high}
      step=${this.step}
      .value=${live(String(Math.min(high, Math.max(low, this.value ?? low))))}
      aria-label=${text.field.slider(this.label)}
      aria-valuetext=${`${this.lead}${this.value ?? ''} ${this.unit}`.trim()}
      @input=${this.onSlide}
      @pointerup=${this.endGesture}
      @blur=${this.endGesture}
    />`;
  }

  /** The value as the field shows it; empty where there is none. */
  private get inForce(): string {
    return this.value === null ? '' : shortest(this.value, this.least, this.decimals);
  }

  private faultOf(kept: string | undefined): string | null {
    if (kept === undefined) return null;
    const { status } = parseNumber(kept);
    if (status === 'read') return this.outside(kept);
    if (status === 'empty') return text.wrong.empty;
    if (unread.get(this.key) === kept) return text.field.unread(kept);
    return text.wrong.entry(kept, readerOf(this.unit, this.lead)?.hint);
  }

  private outside(typed: string): string {
    const limit = (value: number) => (Number.isFinite(value) ? shortest(value, 0, 3) : null);
    // A unit may go on with a remark, which has no place in a sentence.
    const [unit = ''] = this.unit.split(/[,(]/);
    return text.wrong.outside(typed, limit(this.min), limit(this.max), unit.trim());
  }

  private readonly onInput = (event: Event): void => {
    this.take((event.target as HTMLInputElement).value, false);
  };

  private readonly onChange = (event: Event): void => {
    this.take((event.target as HTMLInputElement).value, true);
    this.app.app.store.endMerge();
  };

  private readonly onSlide = (event: Event): void => {
    this.dropEntry();
    this.fault = null;
    this.forget();
    this.tell(Number((event.target as HTMLInputElement).value));
  };

  /** One drag, or one run of arrow keys, is one step of undo. */
  private readonly endGesture = (): void => {
    this.app.app.store.endMerge();
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    // An entry that stands there from before may be readable now.
    const stands = this.typed === null && this.kept !== undefined;
    if (event.key === 'Enter' && (this.once || stands)) this.onChange(event);
    // An empty field that gives its value when it is left has none to step from.
    if (this.once && this.value === null) return;
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    event.preventDefault();
    const sign = event.key === 'ArrowUp' ? 1 : -1;
    const next = (this.value ?? 0) + sign * this.step;
    const rounded = Math.round(next / this.step) * this.step;
    const value = Number(Math.min(this.max, Math.max(this.min, rounded)).toFixed(6));
    this.dropEntry();
    this.forget();
    this.tell(value);
  };

  private take(typed: string, done: boolean): void {
    if (this.waiting !== null) this.dropEntry();
    this.typed = typed;
    this.fault = null;
    this.start ??= this.app.app.store.state.document;
    const parsed = parseNumber(typed);
    const reader = parsed.status === 'wrong' ? readerOf(this.unit, this.lead) : null;
    if (reader !== null) {
      // Units may still be on their way while the user types; the 6 of 68 °F is no entry.
      if (done) void this.readQuantity(typed, reader);
      else this.takeBack();
      return;
    }
    const inside = parsed.status === 'read' && parsed.value >= this.min && parsed.value <= this.max;
    if (this.once && !done && parsed.status !== 'wrong') return;
    if (inside || (parsed.status === 'empty' && this.optional)) {
      // Left, the field shows the number as it is kept: "1." is 1, "1,20" is 1.2.
      if (this.once || done) this.typed = null;
      this.forget();
      this.begun ??= { value: this.value, document: this.app.app.store.state.document };
      this.tell(parsed.status === 'read' ? parsed.value : null);
      if (done) this.endEntry();
    } else if (done || parsed.status === 'wrong') {
      this.refuse(typed);
      if (done) this.endEntry();
    }
  }

  /**
   * Reads an entry with units. The notebook keeps it as typed meanwhile: what reads units may be
   * long on its way, and the page be closed or another entry be typed before.
   */
  private async readQuantity(typed: string, { read }: QuantityReader): Promise<void> {
    const { key } = this;
    const { store } = this.app.app;
    const before = this.start ?? store.state.document;
    this.refuse(typed);
    this.endEntry();
    const waiting = { typed, before };
    this.waiting = waiting;
    unread.set(key, typed);
    const answer = await read(typed).then(
      (value) => Number(value.toFixed(this.decimals)),
      (error: unknown) => (error instanceof Error ? error : new Error(String(error))),
    );
    // Undone, typed over, or the field has gone to another figure: the wait is over.
    if (this.waiting !== waiting) return;
    this.waiting = null;
    this.typed = null;
    if (this.key !== key || !this.isConnected) return;
    if (typeof answer === 'number' && answer >= this.min && answer <= this.max) {
      unread.delete(key);
      this.withdraw(before);
      this.forget();
      this.tell(answer, 'also the same');
      this.app.say(text.field.readAs(typed, `${this.lead}${answer} ${this.unit}`));
    } else if (answer instanceof ReaderMissingError) {
      this.fault = text.field.readerMissing(typed);
      this.app.say(this.fault);
    } else {
      unread.delete(key);
      // A quantity with its unit, but one that no darkroom has.
      const isFar =
        typeof answer === 'number' || ('fault' in answer && answer.fault === 'out-of-range');
      if (isFar) this.fault = this.outside(typed);
    }
    store.endMerge();
  }

  /** The next thing typed begins an entry. */
  private endEntry(): void {
    this.begun = null;
    this.start = null;
    this.waiting = null;
  }

  /** Something else takes the place of what was typed; if that was not read yet, it never was. */
  private dropEntry(): void {
    const { waiting } = this;
    this.typed = null;
    this.endEntry();
    if (waiting === null) return;
    unread.delete(this.key);
    this.withdraw(waiting.before);
  }

  /** Takes back the last step if it began there. */
  private withdraw(before: WorkDocument): void {
    const { store } = this.app.app;
    // First: the field must not think that somebody else did it.
    this.kept = before.asTyped?.[this.key];
    if (!store.withdraw(before)) this.kept = this.app.now;
  }

  /** The figures on the way to an entry, the 1 of 1e9 or the 6 of 68 °F, are taken back. */
  private takeBack(): void {
    const { begun } = this;
    this.begun = null;
    if (begun === null) return;
    this.told = begun.value;
    // The field may not show yet what was taken: the notebook itself is asked.
    if (!this.app.app.store.withdraw(begun.document)) this.tell(begun.value);
  }

  /** Keeps the entry as typed, with the figure in force as it was before. */
  private refuse(typed: string): void {
    this.takeBack();
    this.kept = typed;
    const mergeKey = `typed ${this.key}`;
    this.app.app.store.dispatch({ type: 'typed/keep', key: this.key, text: typed, mergeKey });
  }

  private forget(): void {
    const { store } = this.app.app;
    if (this.kept === undefined) return;
    this.kept = undefined;
    const mergeKey = `typed ${this.key}`;
    store.dispatch({ type: 'typed/keep', key: this.key, text: null, mergeKey });
  }

  private tell(value: number | null, when?: 'also the same'): void {
    this.told = value;
    if (value === this.value && when === undefined) return;
    this.dispatchEvent(new CustomEvent('wb-value', { detail: value }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-number': NumberField;
  }
}
