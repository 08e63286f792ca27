/**
 * The sentence of the live region for those who see: it stands for some seconds over the foot of
 * the page, and goes at once when the page is touched, as it may lie over what is wanted there.
 */
import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import type { Announcement } from '../state/app.ts';

@customElement('wb-toast')
export class Toast extends LitElement {
  static override styles = css`
    .toast {
      position: fixed;
      inset-inline-start: 1rem;
      bottom: 1rem;
      max-width: min(40rem, calc(100vw - 2rem));
      box-sizing: border-box;
      /* In the dark a filled field would be a lamp. */
      background: var(--toast-ground, var(--text));
      color: var(--toast-text, var(--ground));
      border: 2px solid var(--text);
      padding: 0.5rem 0.9rem;
      border-radius: 0.375rem;
      margin: 0;
      z-index: 2;
      pointer-events: none;
      animation: away 0.4s 7s forwards;
    }
    @keyframes away {
      to {
        opacity: 0;
        visibility: hidden;
      }
    }
    @media (prefers-reduced-motion: reduce) {
      .toast {
        animation-duration: 0.01s;
      }
    }
    @media print {
      .toast {
        display: none;
      }
    }
  `;

  @property({ attribute: false }) announcement: Announcement = { says: '' };
  @state() private gone = false;

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener('pointerdown', this.onTouch);
  }

  override disconnectedCallback(): void {
    removeEventListener('pointerdown', this.onTouch);
    super.disconnectedCallback();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('announcement')) this.gone = false;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { announcement } = this;
    if (this.gone || announcement.says === '') return nothing;
    // Each announcement is a new element: its time on the screen begins anew.
    return html`${keyed(announcement, html`<p class="toast" aria-hidden="true">${announcement.says}</p>`)}`;
  }

  private readonly onTouch = (): void => {
    this.gone = true;
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-toast': Toast;
  }
}
