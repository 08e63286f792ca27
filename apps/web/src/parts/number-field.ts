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
import { parseNumber, shortest } from '../worksheet/parse-cell.ts';
import { text } from '../text.ts';
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
  /** What may be typed besides a number, told when an entry cannot be read. */
  @property() hint = '';
  /** Gives the value when the field is left, not while typing, and is empty again. */
  @property({ type: Boolean }) once = false;
  /** Reads what is no plain number, e.g. a quantity with its unit; asked only then. */
  @property({ attribute: false }) read: ((typed: string) => Promise<number>) | null = null;
  @state() private typed: string | null = null;
  @state() private fault: string | null = null;

  private readonly app = new AppController(this, ({ document }) => document.asTyped?.[this.key]);

  protected override willUpdate(changed: PropertyValues<this>): void {
    // A value from elsewhere (undo, a slider) replaces what was typed, unless that says the same.
    if (changed.has('value') && this.typed !== null) {
      const parsed = parseNumber(this.typed);
      const same = parsed.status === 'read' && parsed.value === this.value;
      if (!same && !(parsed.status === 'empty' && this.value === null)) this.typed = null;
    }
  }

  protected override render(): TemplateResult {
    const kept = this.app.value;
    const shown =
      kept ??
      this.typed ??
      (this.value === null ? '' : shortest(this.value, this.least, this.decimals));
    const fault = this.faultOf(kept) ?? this.fault;
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

  private faultOf(kept: string | undefined): string | null {
    if (kept === undefined) return null;
    const parsed = parseNumber(kept);
    if (parsed.status === 'wrong') return this.hint === '' ? parsed.sentence : this.hint;
    if (parsed.status === 'empty') return text.wrong.empty;
    return text.wrong.outside(kept, this.min, this.max, this.unit);
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
    if (parsed.status === 'wrong' && this.read !== null) {
      // Units may still be on their way while the user types.
      if (done) void this.readQuantity(typed, this.read);
      return;
    }
    const inside = parsed.status === 'read' && parsed.value >= this.min && parsed.value <= this.max;
    if (this.once && !done && parsed.status !== 'wrong') return;
    if (inside || (parsed.status === 'empty' && this.optional)) {
      // Left, the field shows the number as it is kept: "1." is 1, "1,20" is 1.2.
      if (this.once || done) this.typed = null;
      this.forget();
      this.tell(parsed.status === 'read' ? parsed.value : null);
    } else if (done || parsed.status === 'wrong') {
      this.keep(typed);
    }
  }

  private async readQuantity(
    typed: string,
    read: (typed: string) => Promise<number>,
  ): Promise<void> {
    try {
      const value = Number((await read(typed)).toFixed(this.decimals));
      if (this.typed !== typed) return;
      if (value >= this.min && value <= this.max) {
        this.typed = null;
        this.forget();
        this.tell(value);
        this.app.app.session.set({ announcement: text.field.readAs(typed, value, this.unit) });
      } else {
        this.fault = text.wrong.outside(typed, this.min, this.max, this.unit);
        this.keep(typed);
      }
    } catch {
      if (this.typed === typed) this.keep(typed);
    }
  }

  private keep(typed: string): void {
    const mergeKey = `typed ${this.key}`;
    this.app.app.store.dispatch({ type: 'typed/keep', key: this.key, text: typed, mergeKey });
  }

  private forget(): void {
    const { store } = this.app.app;
    if (this.app.value === undefined) return;
    const mergeKey = `typed ${this.key}`;
    store.dispatch({ type: 'typed/keep', key: this.key, text: null, mergeKey });
  }

  private tell(value: number | null): void {
    if (value === this.value) return;
    this.dispatchEvent(new CustomEvent('wb-value', { detail: value }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-number': NumberField;
  }
}
