/** How the notebook is kept: the last export, the browser's promise, and snapshots to go back to. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Keeper } from '../keeping/keeper.ts';
import type { SnapshotFacts } from '../keeping/thinned.ts';
import { download } from '../parts/download.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { firstStripId } from '../state/start.ts';
import { text } from '../text.ts';
import { dialogStyles } from './dialog.styles.ts';

const DAY = 86_400_000;

@customElement('wb-keeping-dialog')
export class KeepingDialog extends LitElement {
  static override styles = [
    sharedStyles,
    dialogStyles,
    css`
      ul {
        list-style: none;
        margin: 0.75rem 0;
        padding: 0;
      }
      li {
        padding: 0.6rem 0;
        border-top: 1px solid var(--rule);
      }
      li p {
        margin: 0.1rem 0;
      }
      li .choices {
        margin-top: 0.4rem;
      }
    `,
  ];

  @property({ attribute: false }) keeper!: Keeper;
  /** Exports the notebook that is open. */
  @property({ attribute: false }) export: () => void = () => undefined;
  @query('dialog') readonly dialog!: HTMLDialogElement | null;
  @state() private snapshots: readonly SnapshotFacts[] | null = null;
  @state() private barred = false;
  @state() private persisted: boolean | null = null;
  @state() private usage: { used: number; quota: number } | null = null;
  /** What came of the last thing asked. */
  @state() private answer: string | null = null;

  private readonly app = new AppController(this, ({ session }) => ({
    lastExported: session.lastExported,
    lastSaved: session.lastSaved,
  }));

  override connectedCallback(): void {
    super.connectedCallback();
    void this.refresh();
  }

  protected override render(): TemplateResult {
    const t = text.keeping;
    const lastExported = this.app.value?.lastExported ?? null;
    const days = lastExported === null ? null : (Date.now() - lastExported.getTime()) / DAY;
    return html`<dialog
      aria-labelledby="title"
      @close=${() => this.dispatchEvent(new CustomEvent('wb-closed'))}
    >
      <h2 id="title">${t.title}</h2>
      <p>${t.says}</p>
      <p>${t.exported(lastExported, days)}</p>
      <p>${this.promise}</p>
      ${this.usage === null ? nothing : html`<p>${t.usage(this.usage.used, this.usage.quota)}</p>`}
      <div class="choices">
        <button class="primary" @click=${this.export}>${t.export}</button>
        ${this.persisted === false ? html`<button @click=${this.askPersist}>${t.askPersist}</button>` : nothing}
      </div>
      <h3>${t.snapshots}</h3>
      <p>${t.snapshotsSay}</p>
      <p role="status">${this.answer}</p>
      ${this.listTemplate()}
      <div class="choices">
        <button @click=${this.take} ?disabled=${this.barred}>${t.take}</button>
        ${
          (this.snapshots ?? []).length > 1
            ? html`<button @click=${() => this.removeSome(this.snapshots ?? [])}>
                ${t.deleteSnapshots}
              </button>`
            : nothing
        }
        <button @click=${() => this.dialog?.close()}>${t.close}</button>
      </div>
    </dialog>`;
  }

  private get promise(): string {
    if (this.persisted === null) return text.keeping.persistUnknown;
    return this.persisted ? text.keeping.persisted : text.keeping.notPersisted;
  }

  private listTemplate(): TemplateResult | typeof nothing {
    const t = text.keeping;
    if (this.barred) return html`<p class="wrong">${t.snapshotsBarred}</p>`;
    if (this.snapshots === null) return nothing;
    if (this.snapshots.length === 0) return html`<p class="quiet">${t.noSnapshots}</p>`;
    return html`<ul>
      ${this.snapshots.map((facts) => {
        const name = t.snapshotName(facts.title, facts.at);
        return html`<li data-snapshot=${facts.number}>
          <p><b>${name}</b></p>
          <p class="quiet">${t.facts(facts)}; ${t.reason(facts.reason)}</p>
          <div class="choices">
            <button aria-label=${`${t.goBack}: ${name}`} @click=${() => this.goBack(facts)}>
              ${t.goBack}
            </button>
            <button aria-label=${`${t.exportOne}: ${name}`} @click=${() => this.exportOne(facts)}>
              ${t.exportOne}
            </button>
            <button
              aria-label=${`${t.deleteOne}: ${name}`}
              @click=${() => this.removeSome([facts])}
            >
              ${t.deleteOne}
            </button>
          </div>
        </li>`;
      })}
    </ul>`;
  }

  private async refresh(): Promise<void> {
    try {
      this.snapshots = await this.keeper.snapshots();
    } catch {
      this.barred = true;
    }
    // Both are missing where the page is not secure.
    const storage = navigator.storage as StorageManager | undefined;
    this.persisted = (await storage?.persisted().catch(() => null)) ?? null;
    const { usage, quota } = (await storage?.estimate().catch((): StorageEstimate => ({}))) ?? {};
    this.usage = usage === undefined || quota === undefined ? null : { used: usage, quota };
  }

  private readonly askPersist = async (): Promise<void> => {
    const granted = await navigator.storage.persist().catch(() => false);
    this.answer = granted ? text.keeping.persistGranted : text.keeping.persistDenied;
    await this.refresh();
  };

  private readonly take = async (): Promise<void> => {
    const taken = await this.keeper.takeSnapshot('by-hand');
    this.answer = taken
      ? text.keeping.taken
      : (this.app.app.session.value.saveFault?.sentence ?? '');
    await this.refresh();
  };

  private async removeSome(some: readonly SnapshotFacts[]): Promise<void> {
    await this.tried(async () => {
      await this.keeper.removeSnapshots(some.map(({ number }) => number));
      this.answer = text.keeping.snapshotsDeleted(some.length);
    });
    await this.refresh();
  }

  private async exportOne({ number, title, at }: SnapshotFacts): Promise<void> {
    await this.tried(async () => {
      const content = `${JSON.stringify(await this.keeper.snapshot(number), null, 2)}\n`;
      download(text.app.fileName(title, new Date(at)), content, 'application/json');
    });
  }

  private async goBack({ number, title, at }: SnapshotFacts): Promise<void> {
    await this.tried(async () => {
      const { document } = await this.keeper.openSnapshot(number);
      await this.keeper.takeSnapshot('before-going-back');
      const { store, session } = this.app.app;
      store.dispatch({ type: 'document/load', document });
      session.set({
        stripId: firstStripId(document),
        announcement: { says: text.keeping.wentBack(title, at) },
      });
      this.dialog?.close();
    });
  }

  private async tried(run: () => Promise<void>): Promise<void> {
    try {
      await run();
    } catch (error) {
      this.answer = text.keeping.cannotDo(error instanceof Error ? error.message : String(error));
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-keeping-dialog': KeepingDialog;
  }
}
