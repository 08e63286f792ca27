/**
 * Timer of the bath: large figures, agitation reminders and an end that can be heard, seen and read
 * out. It goes by the time of day, so that a tab in the background or a sleeping screen loses
 * nothing.
 */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { sharedStyles } from '../parts/styles.ts';
import { text } from '../text.ts';
import {
  clockText,
  elapsedSeconds,
  signalsBetween,
  signalsOf,
  type SignalKind,
  type TimerState,
} from './timer-plan.ts';
import { TimerSound } from './timer-sound.ts';
import '../parts/number-field.ts';

const TICK_MILLISECONDS = 200;

@customElement('wb-timer')
export class BathTimer extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .clock {
        font-size: clamp(4rem, 22cqi, 9rem);
        line-height: 1;
        font-variant-numeric: tabular-nums;
        margin: 0.25rem 0;
        max-width: none;
      }
      :host {
        container-type: inline-size;
      }
      .now {
        font-size: 1.5rem;
        min-height: 2.25rem;
        font-weight: 600;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 0.75rem;
        align-items: end;
      }
      .row button {
        min-height: 3.5rem;
        min-width: 7rem;
        font-size: 1.125rem;
      }
      wb-number {
        --field-width: 4.5rem;
        margin-top: 0.75rem;
      }
      progress {
        appearance: none;
        display: block;
        width: 100%;
        height: 0.75rem;
        border: 1px solid var(--frame);
        border-radius: 0.375rem;
        overflow: hidden;
        background: var(--surface);
        margin: 0.5rem 0;
      }
      progress::-webkit-progress-bar {
        background: var(--surface);
      }
      progress::-webkit-progress-value {
        background: var(--accent);
      }
      progress::-moz-progress-bar {
        background: var(--accent);
      }
    `,
  ];

  /** Length of the bath. */
  @property({ type: Number }) minutes = 0;
  @state() private timer: TimerState | null = null;
  @state() private agitationSeconds = 30;
  @state() private elapsed = 0;
  @state() private last: SignalKind | null = null;
  @state() private silent = false;
  private readonly sound = new TimerSound();
  private ticking: ReturnType<typeof setInterval> | undefined;
  private lock: { release: () => Promise<void> } | null = null;
  private pageTitle = '';

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('visibilitychange', this.tick);
  }

  override disconnectedCallback(): void {
    document.removeEventListener('visibilitychange', this.tick);
    this.reset();
    super.disconnectedCallback();
  }

  private get running(): boolean {
    return this.timer !== null && this.timer.startedAt !== null;
  }

  protected override render(): TemplateResult {
    const t = text.timer;
    const total = this.timer?.totalSeconds ?? 60 * this.minutes;
    const left = total - this.elapsed;
    const ended = this.timer !== null && left <= 0;
    return html`<h3>${t.title}</h3>
      <p class="clock" role="timer" aria-label=${t.left}>${clockText(left)}</p>
      <progress
        max=${Math.max(1, total)}
        .value=${this.elapsed}
        aria-label=${t.progress}
      ></progress>
      <p class="now" role="status" aria-live="assertive">
        ${ended ? t.signals.end : this.running && this.last !== null ? t.signals[this.last] : ''}
      </p>
      <div class="row">
        ${
          this.running && !ended
            ? html`<button id="pause" @click=${this.pause}>${t.pause}</button>`
            : html`<button
                id="start"
                class="primary"
                ?disabled=${!(total > 0) || ended}
                @click=${this.start}
              >
                ${this.elapsed > 0 && !ended ? t.goOn : t.start(total / 60)}
              </button>`
        }
        <button id="reset" ?disabled=${this.timer === null} @click=${this.reset}>${t.reset}</button>
        <button id="try" ?disabled=${this.running} @click=${this.trySound}>${t.trySound}</button>
      </div>
      <wb-number
        id="agitation"
        label=${t.agitation}
        unit=${t.agitationUnit}
        key="timer/agitation"
        .value=${this.agitationSeconds}
        .min=${0}
        .max=${600}
        .step=${5}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          this.agitationSeconds = detail;
        }}
      ></wb-number>
      ${this.silent ? html`<p class="wrong">${t.noSound}</p>` : nothing}
      <p class="quiet small">${t.hint}</p>`;
  }

  private readonly start = (): void => {
    const { timer, agitationSeconds } = this;
    const now = Date.now();
    const state: TimerState = timer ?? {
      totalSeconds: Math.round(60 * this.minutes),
      agitationSeconds,
      startedAt: null,
      elapsedBefore: 0,
    };
    this.timer = { ...state, startedAt: now };
    const { totalSeconds, elapsedBefore } = state;
    const ahead = signalsOf(totalSeconds, state.agitationSeconds).filter(
      ({ at }) => at > elapsedBefore,
    );
    this.silent = !this.sound.lay(ahead, elapsedBefore);
    if (this.pageTitle === '') this.pageTitle = document.title;
    this.ticking = setInterval(this.tick, TICK_MILLISECONDS);
    void this.keepAwake();
  };

  private readonly pause = (): void => {
    this.tick();
    if (this.timer === null) return;
    this.timer = { ...this.timer, startedAt: null, elapsedBefore: this.elapsed };
    this.halt();
    this.sound.stop();
  };

  private readonly reset = (): void => {
    this.timer = null;
    this.elapsed = 0;
    this.last = null;
    this.halt();
    this.sound.stop();
    if (this.pageTitle !== '') document.title = this.pageTitle;
    this.pageTitle = '';
  };

  private readonly trySound = (): void => {
    this.silent = !this.sound.try();
  };

  private readonly tick = (): void => {
    const { timer } = this;
    if (timer === null || timer.startedAt === null) return;
    const now = elapsedSeconds(timer, Date.now());
    const signals = signalsBetween(timer, this.elapsed, now);
    this.last = signals.at(-1)?.kind ?? this.last;
    this.elapsed = now;
    document.title = text.timer.pageTitle(clockText(timer.totalSeconds - now), this.pageTitle);
    if (now < timer.totalSeconds) return;
    this.timer = { ...timer, startedAt: null, elapsedBefore: now };
    this.halt();
  };

  private halt(): void {
    clearInterval(this.ticking);
    void this.lock?.release().catch(() => undefined);
    this.lock = null;
  }

  /** A screen that goes dark in mid-bath has to be touched with wet hands. */
  private async keepAwake(): Promise<void> {
    try {
      this.lock = await navigator.wakeLock.request('screen');
    } catch {
      this.lock = null; // not allowed or not there: sound and clock go on
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-timer': BathTimer;
  }
}
