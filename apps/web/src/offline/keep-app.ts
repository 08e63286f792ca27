/**
 * Has the browser keep the app, so that it opens without a network, and tells the session when that
 * is done and when a newer version waits. A newer version is never taken up unasked.
 */
import { registerSW } from 'virtual:pwa-register';
import type { Session } from '../state/app.ts';
import type { Observable } from '../state/observable.ts';

/** Changes to the newer version; the page that was there before any worker reloads by itself. */
async function takeUp(update: (reload: boolean) => Promise<void>): Promise<void> {
  const waiting = (await navigator.serviceWorker.getRegistration())?.waiting ?? null;
  if (waiting === null) {
    location.reload();
    return;
  }
  waiting.addEventListener('statechange', () => {
    if (waiting.state === 'activated') location.reload();
  });
  await update(true);
}

/** @param session - the state of this visit */
export function keepApp(session: Observable<Session>): void {
  // Only secure addresses, and this machine's own, may keep an app.
  if (!('serviceWorker' in navigator)) {
    session.set({ offline: 'not-here' });
    return;
  }
  const update = registerSW({
    immediate: true,
    onNeedRefresh() {
      session.set({ update: () => takeUp(update) });
    },
    onRegisterError() {
      session.set({ offline: 'not-here' });
    },
  });
  // A worker becomes active once every file is kept.
  void navigator.serviceWorker.ready.then(() => {
    session.set({ offline: 'ready' });
  });
}
