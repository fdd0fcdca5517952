/** The window's files and the student's pages come from an origin of the shell's own, which no page on the network has. */
export const scheme = 'barwise';
export const home = `${scheme}://studio/`;

/** Whether an address belongs to the shell itself. */
export function isOwn(address: string): boolean {
  try {
    const { protocol, host } = new URL(address);
    return protocol === `${scheme}:` && host === 'studio';
  } catch {
    return false;
  }
}

/** Paths of the shell's origin that may stand in a frame: the student's pages. */
export const isPreview = (address: string): boolean =>
  isOwn(address) && new URL(address).pathname.startsWith('/preview/');
