/**
 * A labelled number with its unit, optionally with a slider. What cannot be read stays in the
 * field as typed, is kept with the notebook, and is told in one sentence; the last good value
 * stays in force until then.
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
import { readerOf, type QuantityReader } from './quantities.ts';
import { sharedStyles } from './styles.ts';

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
      .wrong {
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

  private readonly app = new AppController(this, ({ document }) => document.asTyped?.[this.key]);

  protected override willUpdate(changed: PropertyValues<this>): void {
    // Undo, another notebook or another entry under the same field: what was typed here is over.
    const kept = this.app.now;
    if (kept !== this.kept || (changed.has('key') && this.hasUpdated)) {
      this.kept = kept;
      this.typed = null;
      this.fault = null;
      this.begun = null;
    }
    // A value from elsewhere (undo, a slider) replaces what was typed, unless that says the same.
    if (changed.has('value') && this.typed !== null) {
      const parsed = parseNumber(this.typed);
      const same = parsed.status === 'read' && parsed.value === this.value;
      if (!same && !(parsed.status === 'empty' && this.value === null)) this.typed = null;
    }
  }

  protected override render(): TemplateResult {
    // What is being typed stands before what was kept, or the field could not be corrected.
    const shown = this.typed ?? this.kept ?? this.inForce;
    const why = this.fault ?? this.faultOf(this.kept);
    const { inForce } = this;
    const fault =
      why === null || inForce === ''
        ? why
        : `${why} ${text.wrong.inForce(`${this.lead}${inForce}`)}`;
    return html`<label for="field" class=${this.bare ? 'visually-hidden' : ''}>${this.label}</label>
      <form class="row" @submit=${neverSent}>
        ${this.lead === '' ? nothing : html`<span class="unit">${this.lead}</span>`}
        <input
          id="field"
          type="text"
          inputmode="decimal"
          autocomplete="off"
          .value=${live(shown)}
          aria-invalid=${fault === null ? nothing : 'true'}
          aria-describedby=${fault === null ? 'unit' : 'fault'}
          @input=${this.onInput}
          @change=${this.onChange}
          @keydown=${this.onKey}
        />
        <span class="unit" id="unit">${this.unit}</span>
        ${this.sliderTemplate()}
      </form>
      ${fault === null ? nothing : html`<div class="wrong" id="fault">${fault}</div>`}`;
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
    this.typed = null;
    this.fault = null;
    this.forget();
    this.tell(Number((event.target as HTMLInputElement).value));
  };

  /** One drag, or one run of arrow keys, is one step of undo. */
  private readonly endGesture = (): void => {
    this.app.app.store.endMerge();
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' && this.once) this.onChange(event);
    // An empty field that gives its value when it is left has none to step from.
    if (this.once && this.value === null) return;
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    event.preventDefault();
    const sign = event.key === 'ArrowUp' ? 1 : -1;
    const next = (this.value ?? 0) + sign * this.step;
    const rounded = Math.round(next / this.step) * this.step;
    const value = Number(Math.min(this.max, Math.max(this.min, rounded)).toFixed(6));
    this.typed = null;
    this.forget();
    this.tell(value);
  };

  private take(typed: string, done: boolean): void {
    this.typed = typed;
    this.fault = null;
    const parsed = parseNumber(typed);
    const reader = parsed.status === 'wrong' ? readerOf(this.unit, this.lead) : null;
    if (reader !== null) {
      // Units may still be on their way while the user types.
      if (done) void this.readQuantity(typed, reader);
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
      if (done) this.begun = null;
    } else if (done || parsed.status === 'wrong') {
      this.refuse(typed);
    }
  }

  private async readQuantity(typed: string, { read }: QuantityReader): Promise<void> {
    try {
      const value = Number((await read(typed)).toFixed(this.decimals));
      if (this.typed !== typed) return;
      if (value >= this.min && value <= this.max) {
        this.typed = null;
        this.forget();
        this.takeBack();
        this.tell(value, 'also the same');
        this.app.app.session.set({ announcement: { says: text.field.readAs(typed, value, this.unit) } });
      } else {
        this.refuse(typed);
        this.fault = this.outside(typed);
      }
    } catch (error) {
      if (this.typed !== typed) return;
      this.refuse(typed);
      // A quantity with its unit, but one that no darkroom has.
      const isFar = error instanceof Error && 'fault' in error && error.fault === 'out-of-range';
      if (isFar) this.fault = this.outside(typed);
    }
    this.app.app.store.endMerge();
  }

  /** The figures on the way to an entry, the 1 of 1e9 or the 6 of 68 °F, are taken back. */
  private takeBack(): void {
    const { begun } = this;
    this.begun = null;
    // The field may not show yet what was taken: the notebook itself is asked.
    if (begun !== null && !this.app.app.store.withdraw(begun.document)) this.tell(begun.value);
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
    if (value === this.value && when === undefined) return;
    this.dispatchEvent(new CustomEvent('wb-value', { detail: value }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-number': NumberField;
  }
}
