/** Entry: opens what was kept, or the demonstration notebook, and shows the page. */
import { DocumentStore } from '@wedgebook/notebook';
import './theme/tokens.css';
import { demoDocument } from './state/demo.ts';
import type { App, Session } from './state/app.ts';
import { Derive } from './state/derive.ts';
import { DeriveBath } from './state/derive-bath.ts';
import { dateOf, findKept } from './keeping/found.ts';
import { Keeper } from './keeping/keeper.ts';
import { Storage } from './keeping/storage.ts';
import { whenIdle } from './state/after-frame.ts';
import { Observable } from './state/observable.ts';
import { firstStripId } from './state/start.ts';
import { applyWork, type WorkCommand, type WorkDocument } from './state/work.ts';
import { rememberedTheme, showTheme } from './theme/theme.ts';
import { WedgebookApp } from './wb-app.ts';

/** Asked for at once, so that it travels while the notebook is opened. */
const lastWord = import('@wedgebook/core/last-word');
// Told where it is waited for.
lastWord.catch(() => undefined);

async function start(): Promise<void> {
  const theme = rememberedTheme();
  showTheme(theme);
  let keeper: Keeper | null = null;
  const storage = new Storage(() => keeper?.lost());
  const found = await findKept(storage);
  const initial = found.document ?? demoDocument;
  const derive = new Derive();
  const app: App = {
    store: new DocumentStore<WorkDocument, WorkCommand>(initial, applyWork),
    session: new Observable<Session>({
      stripId: firstStripId(initial),
      unit: 'density',
      // Steps as such meters commonly show them: a third of a stop, a lux, a tenth of a second.
      meters: {
        'exposure-value': { base: null, step: 0.33 },
        lux: { base: null, step: 1 },
        seconds: { base: null, step: 0.1 },
      },
      showFamilyOfStrips: true,
      theme,
      curves: 'first',
      slipSearch: false,
      announcement: { says: '' },
      lastSaved: dateOf(found.kept?.savedAt),
      lastExported: found.exportedAt,
      offline: null,
      update: null,
      saveFault: found.fault,
    }),
    derive,
    bath: new DeriveBath(derive),
  };
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
    showTheme(app.session.value.theme);
  });
  const page = new WedgebookApp();
  page.app = app;
  keeper = new Keeper(app, storage, found);
  page.keeper = keeper;
  document.body.append(page);
  await chooseCurves(app);
  await searchForSlips(app);
  whenIdle(() => void keepForOffline(app));
}

/** Every strip is fitted again, as the command fits it; without the choice first curves stay and say so. */
async function chooseCurves({ derive, session }: App): Promise<void> {
  derive.curves = await lastWord.catch(() => 'lost' as const);
  session.set({ curves: 'chosen' });
}

/** The search for slips is loaded after the first paint, and then looks at every strip in use. */
async function searchForSlips({ derive, session }: App): Promise<void> {
  derive.findSlips = (await import('@wedgebook/core/suspects')).slipWarnings;
  session.set({ slipSearch: true });
}

/** A copy of the app for use without a network; fetched when everything else stands. */
async function keepForOffline({ session }: App): Promise<void> {
  const { keepApp } = await import('./offline/keep-app.ts');
  keepApp(session);
}

void start();
