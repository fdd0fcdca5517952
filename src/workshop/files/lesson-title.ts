import { basename } from 'node:path';

/** The title as it is written in a lesson's text, which may be unfinished; the name of the file where it has none. */
export function lessonTitle(text: string, path: string): string {
  const written = /^title:[ \t]*(.+)$/mu.exec(text)?.[1]?.trim() ?? '';
  const bare = /^(["'])(.*)\1$/u.exec(written)?.[2] ?? written.replace(/\s+#.*$/u, '');
  return bare === '' ? basename(path) : bare;
}
