/**
 * A station that is fetched when the reader comes near it, or asks for it: the first load of the
 * page carries only the stations that a first answer needs.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { text } from '../text.ts';
import { sharedStyles } from './styles.ts';

/** How far below the window a station is fetched: about a screen ahead of the reader. */
const AHEAD = '800px';

/** What stands in `stations/lazy-stations.ts` for each station. */
export interface LazyStation {
  /** Its id on the page and in the list of stations. */
  readonly name: string;
  readonly title: string;
  /** Fetches the module that defines the element. */
  readonly load: () => Promise<unknown>;
  /** The element, once it is defined. */
  readonly template: () => TemplateResult;
}

@customElement('wb-lazy-station')
export class LazyStationElement extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .waiting {
        min-height: 40rem;
        padding-top: 1.25rem;
      }
    `,
  ];

  @property({ attribute: false }) station!: LazyStation;
  @state() private phase: 'away' | 'loading' | 'here' | 'failed' = 'away';
  #near: IntersectionObserver | undefined;

  /** Fetches the station now; resolves when it is drawn or could not be had. */
  async show(): Promise<void> {
    if (this.phase === 'here' || this.phase === 'loading') return;
    this.phase = 'loading';
    this.#near?.disconnect();
    try {
      await this.station.load();
      this.phase = 'here';
    } catch {
      this.phase = 'failed';
    }
    await this.updateComplete;
  }

  override disconnectedCallback(): void {
    this.#near?.disconnect();
    super.disconnectedCallback();
  }

  protected override firstUpdated(): void {
    this.#near = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) void this.show();
      },
      { rootMargin: AHEAD },
    );
    this.#near.observe(this);
  }

  protected override render(): TemplateResult {
    if (this.phase === 'here') return this.station.template();
    return html`<section class="waiting" aria-labelledby="title">
      <h2 id="title">${this.station.title}</h2>
      ${
        this.phase === 'failed'
          ? html`<p role="alert">${text.app.stationFailed}</p>
              <button @click=${() => void this.show()}>${text.app.again}</button>`
          : html`<p class="quiet">${text.app.stationComes}</p>`
      }
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-lazy-station': LazyStationElement;
  }
}
