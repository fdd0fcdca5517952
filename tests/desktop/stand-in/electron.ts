/**
 * A small stand-in for the modules of Electron that the shell uses, for machines without Electron's program: the shell's own main process
 * and preload run unchanged, and their windows are pages of a real Chromium. Events have Electron's names and may be prevented as there.
 */
import { EventEmitter } from 'node:events';
import { readFileSync } from 'node:fs';
import type { BrowserContext, Frame, Page, Route } from 'playwright-core';
import { openOrigin, startBrowser, toOwn, toShown } from './chromium.js';
import { pack, preloadWorld, unpack } from './preload-world.js';
import { tell } from './talk.js';
import type { Order } from './talk.js';

type Made = Readonly<Record<string, unknown>>;
type Handler = (event: unknown, ...sent: readonly unknown[]) => Promise<unknown>;

/** Emits an event that a listener may prevent. */
function isPrevented(emitter: EventEmitter, name: string, details: Made = {}, ...more: unknown[]): boolean {
  let prevented = false;
  emitter.emit(name, { ...details, preventDefault: () => (prevented = true) }, ...more);
  return prevented;
}

let context: BrowserContext | undefined;
const handlers = new Map<string, Handler>();
const schemes = new Map<string, (request: Request) => Response | Promise<Response>>();
const doors: {
  before?: (details: { url: string }, answer: (verdict: { cancel: boolean }) => void) => void;
  permission?: (
    contents: WebContents,
    permission: string,
    answer: (isGranted: boolean) => void,
    details: Made,
  ) => void;
  check?: unknown;
  device?: unknown;
} = {};

class WebContents extends EventEmitter {
  static count = 0;
  readonly id = ++WebContents.count;
  page: Page | undefined;
  mainFrame = { url: '' };
  opens: ((details: { url: string }) => { action: string }) | undefined;
  /** Addresses that the program itself loads: `will-navigate` is for what a page does. */
  loading = '';

  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.opens = handler;
  }
  getURL(): string {
    return this.mainFrame.url;
  }
  send(channel: string, ...sent: readonly unknown[]): void {
    const text = pack(sent[0]);
    this.page
      ?.evaluate(
        ([name, packed]) =>
          (globalThis as never as { standInSend: (a: string, b: string) => void }).standInSend(name, packed),
        [channel, text] as const,
      )
      .catch(() => undefined);
  }
}

export class BrowserWindow extends EventEmitter {
  static readonly all: BrowserWindow[] = [];
  static getFocusedWindow(): BrowserWindow | null {
    return BrowserWindow.all.at(-1) ?? null;
  }
  readonly webContents = new WebContents();
  private gone = false;

  constructor(private readonly options: { readonly webPreferences: Made }) {
    super();
    BrowserWindow.all.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }
  isDestroyed(): boolean {
    return this.gone;
  }
  show(): void {
    this.emit('show');
  }
  focus(): void {
    this.emit('focus');
  }
  close(): void {
    if (!isPrevented(this, 'close')) this.destroy();
  }
  destroy(): void {
    if (this.gone) return;
    this.gone = true;
    BrowserWindow.all.splice(BrowserWindow.all.indexOf(this), 1);
    void this.webContents.page?.close().catch(() => undefined);
    this.emit('closed');
    if (BrowserWindow.all.length === 0) app.emit('window-all-closed');
  }
  async loadURL(address: string): Promise<void> {
    if (context === undefined) throw new Error('the application is not ready');
    const { webContents } = this;
    const { preload } = this.options.webPreferences;
    const page = await context.newPage();
    webContents.page = page;
    const eventOf = (frame: Frame): Made => ({
      sender: webContents,
      senderFrame: frame === page.mainFrame() ? webContents.mainFrame : { url: toOwn(frame.url()) },
    });
    await page.exposeBinding(
      'standInInvoke',
      async ({ frame }, message: { channel: string; sent: string[] }) => {
        const handler = handlers.get(message.channel);
        if (handler === undefined) throw new Error(`No handler registered for '${message.channel}'`);
        return pack(await handler(eventOf(frame), ...message.sent.map(unpack)));
      },
    );
    await page.exposeBinding('standInClose', () => {
      this.close();
    });
    await page.exposeBinding(
      'standInPermission',
      ({ frame }, asked: { permission: string; types: string[] }) =>
        new Promise<boolean>(done => {
          const details = {
            mediaTypes: asked.types,
            isMainFrame: frame === page.mainFrame(),
            requestingUrl: toOwn(frame.url()),
          };
          const answer = (isGranted: boolean): void => {
            tell({ kind: 'permission', types: asked.types, isGranted });
            done(isGranted);
          };
          if (doors.permission === undefined) answer(true);
          else doors.permission(webContents, asked.permission, answer, details);
        }),
    );
    if (typeof preload === 'string') await page.addInitScript(preloadWorld(readFileSync(preload, 'utf8')));
    await page.route('**/*', route => this.answer(route, page));
    page.on('framenavigated', frame => {
      if (frame === page.mainFrame()) webContents.mainFrame = { url: toOwn(frame.url()) };
    });
    page.on('popup', popup => {
      const url = toOwn(popup.url());
      const verdict = webContents.opens?.({ url }) ?? { action: 'allow' };
      if (verdict.action !== 'deny') return;
      tell({ kind: 'refused', what: 'window', address: url });
      void popup.close();
    });
    page.on('crash', () => webContents.emit('render-process-gone', {}, { reason: 'crashed' }));
    webContents.loading = address;
    tell({ kind: 'window', preferences: this.options.webPreferences, address });
    await page.goto(toShown(address));
    webContents.loading = '';
    this.emit('ready-to-show');
  }

  private async answer(route: Route, page: Page): Promise<void> {
    const request = route.request();
    const url = toOwn(request.url());
    const refuse = (what: string): Promise<void> => {
      tell({ kind: 'refused', what, address: url });
      // A navigation that is prevented leaves the page as it was.
      return route.abort(what === 'request' ? 'blockedbyclient' : 'aborted');
    };
    if (request.isNavigationRequest() && url !== this.webContents.loading) {
      const isMainFrame = request.frame() === page.mainFrame();
      if (isMainFrame && isPrevented(this.webContents, 'will-navigate', { url }, url))
        return refuse('navigation');
      if (isPrevented(this.webContents, 'will-frame-navigate', { url, isMainFrame })) return refuse('frame');
    }
    // The shell's own scheme is asked where it is answered.
    const isOwn = schemes.has(new URL(url).protocol.slice(0, -1));
    return !isOwn && (await isCancelled(url)) ? refuse('request') : route.continue();
  }
}

/** Asks the shell whether a request may go out. */
const isCancelled = (url: string): Promise<boolean> =>
  new Promise(done => {
    if (doors.before === undefined) done(false);
    else
      doors.before({ url }, ({ cancel }) => {
        done(cancel);
      });
  });

/** Answers for the schemes that the shell has claimed. */
async function answerOwn(request: Request): Promise<Response> {
  const handler = schemes.get(new URL(request.url).protocol.slice(0, -1));
  if (handler === undefined || (await isCancelled(request.url))) {
    tell({ kind: 'refused', what: 'request', address: request.url });
    return Response.error();
  }
  return handler(request);
}

class App extends EventEmitter {
  readonly isPackaged = false;
  requestSingleInstanceLock(): boolean {
    return true;
  }
  async whenReady(): Promise<void> {
    await openOrigin(answerOwn);
    context = await startBrowser();
  }
  getPath(): string {
    return process.env['BARWISE_TEST_DOCUMENTS'] ?? '/';
  }
  getVersion(): string {
    return '0.1.0';
  }
  quit(): void {
    for (const window of [...BrowserWindow.all]) window.close();
    if (BrowserWindow.all.length > 0) return;
    void (context?.close() ?? Promise.resolve()).finally(() => process.exit(0));
  }
}
export const app = new App();

export const ipcMain = {
  handle: (channel: string, handler: Handler): void => {
    handlers.set(channel, handler);
  },
};

export const protocol = {
  registerSchemesAsPrivileged: (claimed: unknown): void => {
    if (context !== undefined) throw new Error('schemes are registered before the application is ready');
    tell({ kind: 'schemes', schemes: claimed });
  },
  handle: (scheme: string, handler: (request: Request) => Response | Promise<Response>): void => {
    schemes.set(scheme, handler);
  },
};

export const session = {
  defaultSession: {
    setPermissionRequestHandler: (handler: typeof doors.permission): void => {
      if (handler !== undefined) doors.permission = handler;
    },
    setPermissionCheckHandler: (handler: unknown): void => {
      doors.check = handler;
    },
    setDevicePermissionHandler: (handler: unknown): void => {
      doors.device = handler;
    },
    webRequest: {
      onBeforeRequest: (handler: typeof doors.before): void => {
        if (handler !== undefined) doors.before = handler;
      },
    },
  },
};

let dialogs = 0;
const openDialogs = new Map<number, (paths: readonly string[]) => void>();
function dialogOf(what: 'open' | 'save', options: Made): Promise<readonly string[]> {
  const number = ++dialogs;
  return new Promise(done => {
    openDialogs.set(number, done);
    tell({ kind: 'dialog', number, what, options });
  });
}
export const dialog = {
  showOpenDialog: async (_window: BrowserWindow, options: Made) => {
    const filePaths = await dialogOf('open', options);
    return { canceled: filePaths.length === 0, filePaths };
  },
  showSaveDialog: async (_window: BrowserWindow, options: Made) => {
    const [filePath = ''] = await dialogOf('save', options);
    return { canceled: filePath === '', filePath };
  },
  showErrorBox: (title: string, content: string): void => {
    tell({ kind: 'error-box', title, content });
  },
};

interface MenuItem {
  readonly label?: string;
  readonly role?: string;
  readonly click?: () => void;
  readonly submenu?: readonly MenuItem[];
}
const nameOf = ({ label, role }: MenuItem): string => label ?? role ?? '';
let shownMenu: readonly MenuItem[] = [];
export const Menu = {
  buildFromTemplate: (template: readonly MenuItem[]): readonly MenuItem[] => template,
  setApplicationMenu: (menu: readonly MenuItem[]): void => {
    shownMenu = menu;
    tell({
      kind: 'menu-shown',
      labels: menu.map(item => [nameOf(item), ...(item.submenu ?? []).map(nameOf)]),
    });
  },
};

process.on('message', (order: Order) => {
  switch (order.kind) {
    case 'menu': {
      let items = shownMenu;
      for (const [index, label] of order.labels.entries()) {
        const item = items.find(one => nameOf(one) === label);
        if (index === order.labels.length - 1) item?.click?.();
        items = item?.submenu ?? [];
      }
      return;
    }
    case 'close':
      BrowserWindow.getFocusedWindow()?.close();
      return;
    case 'dialog-answer':
      openDialogs.get(order.number)?.(order.paths);
      return;
    case 'second-start':
      app.emit('second-instance', {}, ['electron', 'main.js', ...order.words], order.folder);
      return;
  }
});
