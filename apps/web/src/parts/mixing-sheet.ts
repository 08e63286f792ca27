/** Mixing sheet: how much concentrate and water make the volume that is needed. */
import { formatNumber } from '@wedgebook/charts';
import { concentrationOf } from '@wedgebook/core';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { text } from '../text.ts';
import { parseNumber } from '../worksheet/parse-cell.ts';
import { millilitresFromTyped } from './quantities.ts';
import { sharedStyles } from './styles.ts';

@customElement('wb-mixing')
export class MixingSheet extends LitElement {
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
  @state() private millilitres: number | null = null;
  @state() private fault: string | null = null;

  protected override render(): TemplateResult {
    return html`<h3>${text.mixing.title}</h3>
      <label for="volume">${text.mixing.volume}</label>
      <input
        id="volume"
        autocomplete="off"
        aria-describedby="mix"
        aria-invalid=${this.fault === null ? nothing : 'true'}
        placeholder=${text.mixing.placeholder}
        @change=${this.onChange}
      />
      <output id="mix" for="volume">${this.says()}</output>`;
  }

  private says(): TemplateResult | string {
    if (this.fault !== null) return html`<span class="wrong">${this.fault}</span>`;
    if (this.millilitres === null) return text.mixing.hint;
    const concentrate = this.millilitres * concentrationOf(this.partsWater);
    return text.mixing.says(
      formatNumber(concentrate, concentrate < 100 ? 1 : 0),
      formatNumber(this.millilitres - concentrate, concentrate < 100 ? 1 : 0),
      formatNumber(this.millilitres, 0),
      this.partsWater,
    );
  }

  private async onChange(event: Event): Promise<void> {
    const typed = (event.target as HTMLInputElement).value;
    this.fault = null;
    if (typed.trim() === '') {
      this.millilitres = null;
      return;
    }
    try {
      const plain = parseNumber(typed);
      const value = plain.status === 'read' ? plain.value : await millilitresFromTyped(typed);
      if (!(value > 0 && value <= 1e6)) throw new RangeError(typed);
      this.millilitres = value;
    } catch {
      this.millilitres = null;
      this.fault = text.mixing.wrong(typed);
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-mixing': MixingSheet;
  }
}
