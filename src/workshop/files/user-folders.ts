import { homedir, platform } from 'node:os';
import { join } from 'node:path';

/**
 * Where unsaved work, former states and the list of recent lessons are kept: the user's folder for state that outlives a program (XDG Base
 * Directory Specification 0.8 where its variable is set and on Unix; the customary places of macOS and Windows).
 */
export function stateFolder(
  environment: Readonly<Record<string, string | undefined>> = process.env,
  system: string = platform(),
  home: string = homedir(),
): string {
  // The specification asks for an absolute path and for anything else to be passed over; both `/` and a drive letter are.
  const named = environment['XDG_STATE_HOME'];
  const base =
    named !== undefined && /^(?:\/|[A-Za-z]:)/u.test(named)
      ? named
      : system === 'darwin'
        ? join(home, 'Library', 'Application Support')
        : system === 'win32'
          ? (environment['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'))
          : join(home, '.local', 'state');
  return join(base, 'barwise');
}
