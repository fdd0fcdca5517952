import { homedir, platform } from 'node:os';
import { join } from 'node:path';

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * A folder of the user's by the XDG Base Directory Specification 0.8 where its variable is set and on Unix; in the customary place of macOS
 * and Windows otherwise.
 */
function userFolder(
  variable: string,
  places: { readonly mac: readonly string[]; readonly unix: readonly string[] },
  environment: Environment,
  system: string,
  home: string,
): string {
  // The specification asks for an absolute path and for anything else to be passed over; both `/` and a drive letter are.
  const named = environment[variable];
  const base =
    named !== undefined && /^(?:\/|[A-Za-z]:)/u.test(named)
      ? named
      : system === 'darwin'
        ? join(home, ...places.mac)
        : system === 'win32'
          ? (environment['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'))
          : join(home, ...places.unix);
  return join(base, 'barwise');
}

/** Where speech is kept when nothing else is asked for: the user's folder for things that may be deleted. */
export const cacheFolder = (
  environment: Environment = process.env,
  system: string = platform(),
  home: string = homedir(),
): string =>
  join(
    userFolder('XDG_CACHE_HOME', { mac: ['Library', 'Caches'], unix: ['.cache'] }, environment, system, home),
    'speech',
  );

/** Where unsaved work, former states and the list of recent lessons are kept: the user's folder for state that outlives a program. */
export const stateFolder = (
  environment: Environment = process.env,
  system: string = platform(),
  home: string = homedir(),
): string =>
  userFolder(
    'XDG_STATE_HOME',
    { mac: ['Library', 'Application Support'], unix: ['.local', 'state'] },
    environment,
    system,
    home,
  );
