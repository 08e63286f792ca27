/**
 * Work that can wait until the frame in preparation has been shown: it then runs in the browser's
 * idle time, a few milliseconds at once, and gives way to the next keystroke.
 */

/** The longest that work waits for an idle moment, in milliseconds. */
const PATIENCE = 250;
/** Idle time left, in milliseconds, below which the next job waits for another moment. */
const ENOUGH = 3;

/** A job; where it answers with a promise, that is awaited before the next begins. */
export type Job = () => unknown;

const waiting = new Set<Job>();
let called = false;

/** Runs a job after the next frame; one already waiting is not queued twice. */
export function afterFrame(job: Job): void {
  waiting.add(job);
  if (called) return;
  called = true;
  // An idle moment may come before the frame does: the frame is waited for first.
  requestAnimationFrame(callWhenIdle);
}

/** Takes a job back. */
export function forgetAfterFrame(job: Job): void {
  waiting.delete(job);
}

/** Runs `act` in an idle moment, or after `timeout` milliseconds at the latest. */
export function whenIdle(act: (timeLeft: () => number) => void, timeout = PATIENCE): void {
  if ('requestIdleCallback' in globalThis) {
    requestIdleCallback(
      (deadline) => {
        act(() => deadline.timeRemaining());
      },
      { timeout },
    );
  } else {
    const begun = performance.now();
    setTimeout(() => {
      act(() => 2 * ENOUGH - (performance.now() - begun));
    });
  }
}

function callWhenIdle(): void {
  whenIdle((timeLeft) => void runSome(timeLeft));
}

async function runSome(timeLeft: () => number): Promise<void> {
  for (const job of waiting) {
    waiting.delete(job);
    try {
      await job();
    } catch (error) {
      reportError(error); // one that fails must not keep the others waiting
    }
    if (timeLeft() < ENOUGH) break;
  }
  called = waiting.size > 0;
  if (called) callWhenIdle();
}
