/**
 * Takes readings from an instrument on a serial port: connect, teach it once which number of a line
 * is the reading, and read. Each reading goes to the next cell of the sheet with a sound and a word.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { instrument as t } from '../text/instrument.ts';
import { text } from '../text.ts';
import { TimerSound } from '../timer/timer-sound.ts';
import { parseNumber } from '../worksheet/parse-cell.ts';
import type { Entered } from '../worksheet/entered.ts';
import { instrumentStyles } from './instrument-panel.styles.ts';
import { learnPlace, readLine, withPlace, type Example, type Place } from './learnt-place.ts';
import {
  BAUD_RATES,
  DATA_BITS,
  FLOW_CONTROLS,
  PARITIES,
  rememberedSettings,
  rememberSettings,
  STOP_BITS,
  type InstrumentSettings,
  type PortOptions,
} from './port-settings.ts';
import { readPort, type LineSink } from './read-port.ts';
import { serialOf, type SerialPortLike } from './serial-port.ts';

interface ReceivedLine {
  readonly line: string;
  readonly became: string;
}

/** Lines that stay in view. */
const LINES_SHOWN = 5;

@customElement('wb-instrument')
export class InstrumentPanel extends LitElement {
  static override styles = [sharedStyles, instrumentStyles];

  /** Enters a reading, as typed, into the next cell. */
  @property({ attribute: false }) enter: (typed: string) => Entered = () => ({
    status: 'no-strip',
  });
  /** Name of the next cell. */
  @property({ attribute: false }) next: string | null = null;

  @state() private phase: keyof typeof t.phases = 'closed';
  @state() private settings: InstrumentSettings = rememberedSettings();
  @state() private lines: readonly ReceivedLine[] = [];
  @state() private pending = '';
  /** What the user must know, or null. */
  @state() private fault: string | null = null;
  /** The line that is asked about, or null. */
  @state() private asked: string | null = null;
  @state() private answer: TemplateResult | string | null = null;
  #examples: readonly Example[] = [];
  #stop: AbortController | null = null;
  #port: SerialPortLike | null = null;
  readonly #serial = serialOf(navigator);
  readonly #sound = new TimerSound();

  private readonly app = new AppController(this, ({ session }) => ({ unit: session.unit }));

  override connectedCallback(): void {
    super.connectedCallback();
    this.#serial?.addEventListener('connect', this.onPluggedIn);
  }

  override disconnectedCallback(): void {
    this.#serial?.removeEventListener('connect', this.onPluggedIn);
    this.#stop?.abort();
    super.disconnectedCallback();
  }

  protected override render(): TemplateResult {
    return html`<p>${t.intro}</p>
      <p class="quiet">${t.typing}</p>
      ${this.#serial === null ? html`<p class="wrong">${t.missing}</p>` : this.connectionTemplate()}`;
  }

  private connectionTemplate(): TemplateResult {
    const { phase, fault, pending, settings } = this;
    const connected = phase === 'open';
    const { unit = 'density' } = this.app.value ?? {};
    return html`<div class="row">
        ${
          connected
            ? html`<button @click=${this.onDisconnect}>${t.disconnect}</button>`
            : html`<button
                class="primary"
                ?disabled=${phase === 'opening'}
                @click=${() => void this.connect(null)}
              >
                ${phase === 'lost' ? t.reconnect : t.connect}
              </button>`
        }
        <p role="status">${t.phases[phase]}</p>
      </div>
      ${fault === null ? nothing : html`<p class="wrong" role="alert">${fault}</p>`}
      ${
        connected
          ? html`<p class="next">${t.next(this.next)}</p>
              <p class="quiet small">${t.unit(text.units[unit])}</p>`
          : nothing
      }
      ${pending === '' ? nothing : html`<p class="quiet small">${t.pending(pending)}</p>`}
      ${this.asked === null ? nothing : this.teachTemplate(this.asked)}
      ${this.asked === null && this.answer !== null ? html`<p role="status">${this.answer}</p>` : nothing}
      ${this.lines.length === 0 ? nothing : this.linesTemplate()}
      <label class="check"
        ><input
          type="checkbox"
          .checked=${settings.sound}
          @change=${(event: Event) => {
            this.keepSettings({ sound: (event.target as HTMLInputElement).checked });
          }}
        />${t.sound}</label
      >
      ${this.settingsTemplate()}`;
  }

  private linesTemplate(): TemplateResult {
    return html`<table>
      <caption>
        ${t.lines}
      </caption>
      <thead>
        <tr>
          <th scope="col">${t.line}</th>
          <th scope="col">${t.became}</th>
        </tr>
      </thead>
      <tbody>
        ${this.lines.map(
          ({ line, became }) =>
            html`<tr>
              <td><code>${line}</code></td>
              <td>${became}</td>
            </tr>`,
        )}
      </tbody>
    </table>`;
  }

  private teachTemplate(line: string): TemplateResult {
    return html`<fieldset>
      <legend>${t.teach}</legend>
      <p>${t.teachLine(line)}</p>
      <div class="fields">
        <div class="field">
          <label for="shown">${t.shown}</label>
          <input
            id="shown"
            inputmode="decimal"
            autocomplete="off"
            @keydown=${(event: KeyboardEvent) => {
              if (event.key === 'Enter') this.teach(line);
            }}
          />
        </div>
        <button
          @click=${() => {
            this.teach(line);
          }}
        >
          ${t.find}
        </button>
      </div>
      <div role="status">${this.answer === null ? nothing : html`<p>${this.answer}</p>`}</div>
    </fieldset>`;
  }

  private settingsTemplate(): TemplateResult {
    const { port, places } = this.settings;
    const field = <K extends keyof PortOptions>(
      name: K,
      list: readonly PortOptions[K][],
      shown: (value: PortOptions[K]) => string = String,
    ): TemplateResult =>
      choice({
        id: name,
        label: t.fields[name],
        selected: String(port[name]),
        options: list.map((value) => [String(value), shown(value)] as const),
        onChoose: (chosen) => {
          const value = list.find((each) => String(each) === chosen);
          if (value !== undefined) this.keepSettings({ port: { ...port, [name]: value } });
        },
      });
    return html`<details>
      <summary>${t.settings}</summary>
      <div class="fields">
        ${field('baudRate', BAUD_RATES)} ${field('dataBits', DATA_BITS)}
        ${field('parity', PARITIES, (parity) => t.parities[parity])} ${field('stopBits', STOP_BITS)}
        ${field('flowControl', FLOW_CONTROLS, (control) => t.flowControls[control])}
      </div>
      <p class="quiet small">${t.settingsHint}</p>
      ${
        places.length === 0
          ? nothing
          : html`<div class="row">
              <p>${t.learnt(places.length)}</p>
              <button @click=${this.onForget}>${t.forget}</button>
            </div>`
      }
    </details>`;
  }

  private keepSettings(changes: Partial<InstrumentSettings>): void {
    this.settings = { ...this.settings, ...changes };
    rememberSettings(this.settings);
  }

  private readonly onDisconnect = (): void => {
    this.#stop?.abort();
  };

  private readonly onForget = (): void => {
    this.#examples = [];
    this.keepSettings({ places: [] });
    this.app.say(t.forgotten);
  };

  /** An instrument that went away is taken up again when it comes back. */
  private readonly onPluggedIn = (): void => {
    if (this.phase === 'lost') void this.takeUpAgain();
  };

  private async takeUpAgain(): Promise<void> {
    const ports = (await this.#serial?.getPorts()) ?? [];
    const port =
      ports.find((each) => each === this.#port) ?? (ports.length === 1 ? ports[0] : null);
    if (port !== undefined && port !== null) await this.connect(port);
  }

  private async connect(known: SerialPortLike | null): Promise<void> {
    const serial = this.#serial;
    if (serial === null || this.phase === 'opening' || this.phase === 'open') return;
    this.phase = 'opening';
    this.fault = null;
    let port: SerialPortLike;
    try {
      port = known ?? (await serial.requestPort());
    } catch (error) {
      this.phase = 'closed';
      // Choosing none is no fault.
      if (!named(error, 'NotFoundError')) this.fault = t.cannotAsk(messageOf(error));
      return;
    }
    this.#port = port;
    const stop = new AbortController();
    this.#stop = stop;
    try {
      const { reason, half } = await readPort(port, this.settings.port, this.sink, stop.signal);
      this.phase = reason;
      this.fault = reason === 'lost' ? t.lost(half) : null;
      if (reason === 'lost') this.signal(true);
      this.app.say(this.fault ?? t.closed);
    } catch (error) {
      this.phase = 'closed';
      this.fault = t.cannotOpen(messageOf(error));
    } finally {
      this.pending = '';
    }
  }

  private readonly sink: LineSink = {
    opened: () => {
      this.phase = 'open';
      this.app.say(t.connected);
    },
    line: (line) => {
      this.take(line);
    },
    pending: (pending) => {
      this.pending = pending;
    },
    leftOut: (why) => {
      this.fault = t.leftOut[why];
      this.signal(true);
      this.app.say(this.fault);
    },
  };

  private take(line: string): void {
    this.fault = null;
    this.answer = null;
    const reading = readLine(line, this.settings.places);
    if (reading === null) {
      this.note(line, t.unknown);
      this.asked = line;
      this.signal(true);
      this.app.say(`${t.teachLine(line)} ${t.teach}`);
      return;
    }
    this.asked = null;
    const entered = this.enter(reading);
    if (entered.status === 'entered') {
      this.note(line, t.entered(entered));
      this.signal(entered.suspect !== null);
      this.app.say(t.said(entered));
      return;
    }
    const why =
      entered.status === 'wrong'
        ? entered.sentence
        : entered.status === 'full'
          ? t.full
          : t.noStrip;
    this.note(line, why);
    this.signal(true);
    this.app.say(why);
  }

  private note(line: string, became: string): void {
    this.lines = [{ line, became }, ...this.lines].slice(0, LINES_SHOWN);
  }

  /** One stroke for a reading, two for something to look at. */
  private signal(look: boolean): void {
    if (!this.settings.sound) return;
    this.#sound.lay([{ at: 0, kind: look ? 'soon' : 'agitate' }], 0);
  }

  private teach(line: string): void {
    const field = this.renderRoot.querySelector<HTMLInputElement>('#shown');
    const typed = field?.value.trim() ?? '';
    const number = parseNumber(typed);
    if (number.status !== 'read') {
      this.answer = number.status === 'wrong' ? number.sentence : t.notFound(typed);
      return;
    }
    const decimals = /[.,](\d+)/.exec(typed)?.[1]?.length ?? 0;
    const example: Example = { line, shown: { value: number.value, decimals } };
    const learnt = learnPlace(example, this.#examples);
    if (learnt.status === 'found') {
      this.learn(learnt.place, example);
    } else if (learnt.status === 'ambiguous') {
      this.#examples = [...this.#examples, example];
      this.answer = html`${t.ambiguous}
        <span class="row"
          >${learnt.places.map(
            (place) =>
              html`<button
                @click=${() => {
                  this.learn(place, example);
                }}
              >
                ${t.place(place.index, typed)}
              </button>`,
          )}</span
        >`;
    } else {
      this.answer = learnt.contradicted ? t.contradicted(typed) : t.notFound(typed);
    }
  }

  private learn(place: Place, example: Example): void {
    this.#examples = [...this.#examples, example];
    this.keepSettings({ places: withPlace(this.settings.places, place) });
    this.asked = null;
    this.answer = t.found(place.index);
    this.app.say(t.found(place.index));
  }
}

const messageOf = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).replace(/\.$/, '');

const named = (error: unknown, name: string): boolean =>
  error instanceof Error && error.name === name;

declare global {
  interface HTMLElementTagNameMap {
    'wb-instrument': InstrumentPanel;
  }
}
