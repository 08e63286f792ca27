/**
 * Work that can wait: until the frame in preparation has been shown, or until the user pauses. It
 * runs in the browser's idle time, a few milliseconds at once, and gives way to the next keystroke.
 */

/** The longest that work waits for an idle moment, in milliseconds. */
const PATIENCE = 250;
/** Idle time left, in milliseconds, below which the next job waits for another moment. */
const ENOUGH = 3;
/** Without a keystroke for so long, in milliseconds, the user has paused. */
const PAUSE = 200;
/** The longest that work waits for a pause, in milliseconds. */
const LONGEST = 1000;
/** Without a keystroke for so long, in milliseconds, the user is not in the middle of an entry. */
const REST = 600;

/** A job; where it answers with a promise, that is awaited before the next begins. */
export type Job = () => unknown;

const soon = new Set<Job>();
const later = new Set<Job>();
const atRest = new Set<Job>();
let restTimer: ReturnType<typeof setTimeout> | undefined;
/** Whether a run has been asked for. */
let called = false;
let pauseTimer: ReturnType<typeof setTimeout> | undefined;
let lastKey = -Infinity;
/** When the oldest of the jobs that wait for a pause was queued. */
let waitingSince = Infinity;

const noteKey = (): void => {
  lastKey = performance.now();
};
if ('addEventListener' in globalThis) {
  for (const type of ['keydown', 'input']) {
    addEventListener(type, noteKey, { capture: true, passive: true });
  }
}

/** Runs a job after the next frame; one already waiting is not queued twice. */
export function afterFrame(job: Job): void {
  later.delete(job);
  soon.add(job);
  call();
}

/**
 * Runs a job once the user pauses, after a second at the latest: what is not looked at must not
 * stand between two keystrokes. One already waiting is not queued twice.
 */
export function afterPause(job: Job): void {
  if (soon.has(job)) return;
  if (later.size === 0) waitingSince = performance.now();
  later.add(job);
  if (!called) waitForPause();
}

/**
 * Runs a job when the user rests, however long that takes: what would move the page under someone
 * who types. One already waiting is not queued twice.
 */
export function afterRest(job: Job): void {
  atRest.add(job);
  restTimer ??= setTimeout(lookForRest, REST);
}

function lookForRest(): void {
  const left = lastKey + REST - performance.now();
  restTimer = left > 0 ? setTimeout(lookForRest, left) : undefined;
  if (left > 0) return;
  for (const job of atRest) afterPause(job);
  atRest.clear();
}

/** Takes a job back. */
export function forget(job: Job): void {
  soon.delete(job);
  later.delete(job);
  atRest.delete(job);
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

function call(): void {
  if (called) return;
  called = true;
  // An idle moment may come before the frame does: the frame is waited for first.
  requestAnimationFrame(callWhenIdle);
}

function callWhenIdle(): void {
  whenIdle((timeLeft) => void runSome(timeLeft));
}

/** Milliseconds until the jobs that wait for a pause may run. */
function untilPause(): number {
  const now = performance.now();
  return Math.max(0, Math.min(lastKey + PAUSE, waitingSince + LONGEST) - now);
}

async function runSome(timeLeft: () => number): Promise<void> {
  for (let job = next(); job !== undefined; job = next()) {
    forget(job);
    try {
      await job();
    } catch (error) {
      reportError(error); // one that fails must not keep the others waiting
    }
    if (timeLeft() < ENOUGH) break;
  }
  if (soon.size > 0 || (later.size > 0 && untilPause() === 0)) {
    callWhenIdle();
    return;
  }
  called = false;
  if (later.size > 0) waitForPause();
}

/** The timer is left to run out where keys follow: to take it back at each of them costs more. */
function waitForPause(): void {
  pauseTimer ??= setTimeout(lookForPause, untilPause());
}

function lookForPause(): void {
  pauseTimer = undefined;
  if (later.size === 0) return;
  if (untilPause() > 0) waitForPause();
  else call();
}

/** The job whose turn it is, if any. */
function next(): Job | undefined {
  const [job] = soon;
  if (job !== undefined) return job;
  return untilPause() === 0 ? later.values().next().value : undefined;
}
