/**
 * The sounds of a timer, laid out ahead on the audio clock: they come at their time even where a tab
 * in the background is woken once a minute.
 */
import type { Signal, SignalKind } from './timer-plan.ts';

/** Pitch in hertz, and seconds between strokes, of each signal. */
const TONES: Readonly<Record<SignalKind, { readonly hertz: number; readonly strokes: number }>> = {
  agitate: { hertz: 660, strokes: 1 },
  soon: { hertz: 880, strokes: 2 },
  end: { hertz: 990, strokes: 5 },
};
const STROKE_SECONDS = 0.25;
const GAP_SECONDS = 0.4;
const LOUDNESS = 0.3;

export class TimerSound {
  #context: AudioContext | null = null;
  #laid: OscillatorNode[] = [];

  /**
   * Lays out signals; call it from a click, or the browser stays silent.
   *
   * @param signals - in seconds of the bath
   * @param elapsed - seconds of the bath that have passed
   * @returns false where the browser has no sound
   */
  lay(signals: readonly Signal[], elapsed: number): boolean {
    this.stop();
    if (typeof AudioContext === 'undefined') return false;
    this.#context ??= new AudioContext();
    const context = this.#context;
    void context.resume();
    for (const { at, kind } of signals) {
      const { hertz, strokes } = TONES[kind];
      for (let i = 0; i < strokes; i++) {
        this.#stroke(context, context.currentTime + at - elapsed + i * GAP_SECONDS, hertz);
      }
    }
    return true;
  }

  /** Takes back what has not sounded yet. */
  stop(): void {
    for (const tone of this.#laid) {
      tone.stop();
      tone.disconnect();
    }
    this.#laid = [];
  }

  /** One audible stroke now, to set the loudness before the lights go out. */
  try(): boolean {
    return this.lay([{ at: 0, kind: 'agitate' }], 0);
  }

  #stroke(context: AudioContext, at: number, hertz: number): void {
    const tone = new OscillatorNode(context, { frequency: hertz, type: 'triangle' });
    const gain = new GainNode(context, { gain: 0 });
    // Eased in and out, so that no click is heard.
    gain.gain.setValueAtTime(0, at);
    gain.gain.linearRampToValueAtTime(LOUDNESS, at + 0.02);
    gain.gain.setValueAtTime(LOUDNESS, at + STROKE_SECONDS - 0.05);
    gain.gain.linearRampToValueAtTime(0, at + STROKE_SECONDS);
    tone.connect(gain).connect(context.destination);
    tone.start(at);
    tone.stop(at + STROKE_SECONDS);
    this.#laid.push(tone);
  }
}
