import { homedir, platform } from 'node:os';
import { join } from 'node:path';

/**
 * Where speech is kept when nothing else is asked for: the user's folder for things that may be deleted (XDG Base Directory Specification
 * 0.8 where its variable is set and on Unix; the customary places of macOS and Windows).
 */
export function cacheFolder(
  environment: Readonly<Record<string, string | undefined>> = process.env,
  system: string = platform(),
  home: string = homedir(),
): string {
  // The specification asks for an absolute path and for anything else to be passed over; both `/` and a drive letter are.
  const named = environment['XDG_CACHE_HOME'];
  const base =
    named !== undefined && /^(?:\/|[A-Za-z]:)/u.test(named)
      ? named
      : system === 'darwin'
        ? join(home, 'Library', 'Caches')
        : system === 'win32'
          ? (environment['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'))
          : join(home, '.cache');
  return join(base, 'barwise', 'speech');
}
