/**
 * The signals of a bath's timer, and where the clock stands. Pure: the clock is given.
 */
import { clockTime } from '@wedgebook/core';

export type SignalKind = 'agitate' | 'soon' | 'end';

export interface Signal {
  /** Seconds after the start. */
  readonly at: number;
  readonly kind: SignalKind;
}

/** Seconds of warning before the end. */
const SOON_SECONDS = 15;

/**
 * Signals of a bath.
 *
 * @param totalSeconds - length, > 0
 * @param agitationSeconds - between reminders; 0 for none
 * @returns in order of time: reminders short of the warning, one warning, the end
 */
export function signalsOf(totalSeconds: number, agitationSeconds: number): readonly Signal[] {
  if (!(totalSeconds > 0)) return [];
  const warned = totalSeconds > 2 * SOON_SECONDS ? totalSeconds - SOON_SECONDS : totalSeconds;
  const count = agitationSeconds > 0 ? Math.ceil(warned / agitationSeconds) - 1 : 0;
  const agitate = Array.from({ length: Math.max(0, count) }, (_, i): Signal => ({
    at: (i + 1) * agitationSeconds,
    kind: 'agitate',
  }));
  const soon: Signal[] = warned < totalSeconds ? [{ at: warned, kind: 'soon' }] : [];
  return [...agitate, ...soon, { at: totalSeconds, kind: 'end' }];
}

/** A timer that runs, waits or has ended; times in milliseconds of one clock. */
export interface TimerState {
  readonly totalSeconds: number;
  readonly agitationSeconds: number;
  /** When the running piece began; null while it waits. */
  readonly startedAt: number | null;
  /** Seconds run before that. */
  readonly elapsedBefore: number;
}

/** Seconds run so far, at most the total. */
export function elapsedSeconds(state: TimerState, now: number): number {
  const running = state.startedAt === null ? 0 : Math.max(0, now - state.startedAt) / 1000;
  return Math.min(state.totalSeconds, state.elapsedBefore + running);
}

/** Signals that lie between two moments of the bath, the later one included. */
export function signalsBetween(
  { totalSeconds, agitationSeconds }: TimerState,
  from: number,
  to: number,
): readonly Signal[] {
  return signalsOf(totalSeconds, agitationSeconds).filter(({ at }) => at > from && at <= to);
}

/** Whole seconds as `6:30`. A second that has begun counts as still to come. */
export function clockText(seconds: number): string {
  return clockTime(Math.max(0, Math.ceil(seconds - 1e-6)) / 60);
}
