import { protocol } from 'electron';
import { site, studioFiles } from '../src/workshop/index.js';
import type { Workshop } from '../src/workshop/index.js';
import { isOwn, scheme } from './origin.js';

/** Must be called before the application is ready: the scheme is given an origin, and is as trusted as the web's own secure one. */
export function claimScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme, privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ]);
}

/** Sends the window's files and the student's pages, the same as the local server does. */
export function servePages(page: Workshop['page']): void {
  const pages = site(page, studioFiles());
  protocol.handle(scheme, ({ url, method }) => {
    if (!isOwn(url) || method !== 'GET') return new Response(null, { status: 403 });
    const { status, headers, body } = pages(new URL(url).pathname);
    return new Response(Buffer.from(body), { status, headers });
  });
}
