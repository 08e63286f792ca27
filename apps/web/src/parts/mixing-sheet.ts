/** Mixing sheet: how much concentrate and water make the volume that is needed. */
import type { MixingSheet } from '@wedgebook/core/quantities';
import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { text } from '../text.ts';
import { mixingFromTyped, ReaderMissingError } from './quantities.ts';
import { sharedStyles } from './styles.ts';

@customElement('wb-mixing')
export class MixingCard extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      input {
        width: 9rem;
      }
      output {
        display: block;
        font-size: 1.0625rem;
        margin-top: 0.5rem;
      }
    `,
  ];

  @property({ type: Number }) partsWater = 1;
  @state() private mixed: MixingSheet | null = null;
  @state() private fault: string | null = null;
  @query('#volume') private readonly volume!: HTMLInputElement | null;

  protected override updated(changed: PropertyValues<this>): void {
    if (changed.has('partsWater')) void this.mix();
  }

  protected override render(): TemplateResult {
    return html`<h3>${text.mixing.title}</h3>
      <label for="volume">${text.mixing.volume}</label>
      <input
        id="volume"
        autocomplete="off"
        aria-describedby="mix"
        aria-invalid=${this.fault === null ? nothing : 'true'}
        placeholder=${text.mixing.placeholder}
        @change=${this.mix}
      />
      <output id="mix" for="volume">${this.says()}</output>`;
  }

  private says(): TemplateResult | string {
    if (this.fault !== null) return html`<span class="wrong">${this.fault}</span>`;
    return this.mixed === null ? text.mixing.hint : text.mixing.says(this.mixed);
  }

  private readonly mix = async (): Promise<void> => {
    const typed = this.volume?.value ?? '';
    const { partsWater } = this;
    // What reads units may be long on its way: no older sheet may stand under a newer volume.
    const isOver = () => this.volume?.value !== typed || this.partsWater !== partsWater;
    this.fault = null;
    if (typed.trim() === '') {
      this.mixed = null;
      return;
    }
    try {
      const mixed = await mixingFromTyped(typed, partsWater);
      if (!isOver()) this.mixed = mixed;
    } catch (error) {
      if (isOver()) return;
      this.mixed = null;
      const missing = error instanceof ReaderMissingError;
      this.fault = missing ? text.mixing.readerMissing(typed) : text.mixing.wrong(typed);
    }
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-mixing': MixingCard;
  }
}
