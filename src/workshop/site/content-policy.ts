/**
 * What the window may do (CSP Level 3): run and wear what its host sends, speak with its host, frame its host's pages. Libraries add style
 * elements while they run; those carry the nonce. The instrument's decoder is WebAssembly, which needs its own word; sound and pictures
 * that the window makes itself are blobs.
 */
export const windowPolicy = (nonce: string): string =>
  [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "worker-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "font-src 'self' data:",
    "img-src 'self' data: blob:",
    "media-src 'self' data: blob:",
    "connect-src 'self'",
    "frame-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ');

/**
 * What goes beyond the policy that a student's page carries itself: only the window frames it, and it is a stranger to the window's origin
 * even where it is opened by itself.
 */
export const previewPolicy = "frame-ancestors 'self'; sandbox allow-scripts allow-downloads allow-modals";
