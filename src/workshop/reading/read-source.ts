import { isUtf8 } from 'node:buffer';
import { open, readdir } from 'node:fs/promises';
import { basename, dirname, extname } from 'node:path';
import { nearestWord, sourceText } from '../../diagnostics/index.js';
import type { Code, Diagnostic, Result, SourceText, Span } from '../../diagnostics/index.js';

/** Largest file that is opened, in bytes. What a lesson or a score may hold is less and is checked by its reader. */
const mostBytes = 1_000_000;

/**
 * Reads a text file. The size is looked at before anything is read.
 * @param name the path as the user gave it, for messages
 * @param span the place of a lesson that names the file, where there is one
 * @returns codes R0001 to R0004 where the file is missing, cannot be read, is too large, or is not UTF-8
 */
export async function readSource(
  path: string,
  name = path,
  span?: Span,
): Promise<Result<SourceText | undefined>> {
  const refuse = (code: Code, message: string, more: Partial<Diagnostic> = {}): Result<undefined> => ({
    value: undefined,
    diagnostics: [{ code, severity: 'error', message, ...(span === undefined ? {} : { span }), ...more }],
  });
  try {
    const file = await open(path, 'r');
    try {
      const status = await file.stat();
      if (!status.isFile())
        return refuse('R0002', `\`${name}\` is ${status.isDirectory() ? 'a folder' : 'not a file'}`);
      if (status.size > mostBytes) {
        const megabytes = (status.size / 1_000_000).toFixed(1);
        return refuse(
          'R0003',
          `\`${name}\` has ${megabytes} MB, and files up to ${mostBytes / 1_000_000} MB are read`,
        );
      }
      const bytes = await file.readFile();
      if (isUtf8(bytes)) return { value: sourceText(name, bytes.toString('utf8')), diagnostics: [] };
      return refuse('R0004', `\`${name}\` is not UTF-8 text`, {
        notes: [whatElse(bytes)],
        help: 'save it as UTF-8 in your editor',
      });
    } finally {
      await file.close();
    }
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') {
      const help = await whatIsThere(path);
      return refuse('R0001', `there is no file \`${name}\``, help === undefined ? {} : { help });
    }
    if (code === undefined) throw error;
    return refuse('R0002', `\`${name}\` cannot be read: ${systemWords(code)}`);
  }
}

/** What may have been meant by a name that no file has: one that is nearly the same, or others of its kind. */
async function whatIsThere(path: string): Promise<string | undefined> {
  const names = await readdir(dirname(path)).catch(() => []);
  const alike = names.filter(name => extname(name) === extname(path)).sort();
  const meant = nearestWord(basename(path), alike);
  if (meant !== undefined) return `did you mean \`${meant}\`?`;
  if (alike.length === 0) return undefined;
  const some = alike.slice(0, 5).map(name => `\`${name}\``);
  const more = alike.length > some.length ? ' and others' : '';
  return `in that folder ${alike.length === 1 ? 'lies' : 'lie'} ${some.join(', ')}${more}`;
}

/** What the system says about a file, in words. */
export function systemWords(code: string): string {
  switch (code) {
    case 'ENOENT':
      return 'a folder on the way is missing and cannot be made';
    case 'EACCES':
    case 'EPERM':
      return 'permission is missing';
    case 'EROFS':
      return 'the disk is read-only';
    case 'ENOSPC':
      return 'the disk is full';
    case 'EDQUOT':
      return 'your share of the disk is used up';
    case 'ENOTDIR':
    case 'EEXIST':
      return 'a file stands where a folder is needed';
    case 'EISDIR':
      return 'a folder stands where a file is needed';
    case 'ENAMETOOLONG':
      return 'the name is too long';
    case 'ELOOP':
      return 'its links lead in a circle';
    case 'EMFILE':
    case 'ENFILE':
      return 'too many files are open';
    default:
      return `the system says ${code}`;
  }
}

function whatElse(bytes: Buffer): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'it begins like UTF-16';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'it begins like UTF-16';
  if (bytes.subarray(0, 8000).includes(0)) return 'it looks like a program or a picture, not like text';
  const line = lineOfFirstFault(bytes);
  return `line ${line} has a character in another encoding`;
}

/** The line of the first byte that is not UTF-8: the first replacement character that the file does not itself hold. */
function lineOfFirstFault(bytes: Buffer): number {
  const text = bytes.toString('utf8');
  for (let at = text.indexOf('\uFFFD'); at >= 0; at = text.indexOf('\uFFFD', at + 1)) {
    const offset = Buffer.byteLength(text.slice(0, at));
    const isOwn = bytes[offset] === 0xef && bytes[offset + 1] === 0xbf && bytes[offset + 2] === 0xbd;
    if (!isOwn) return text.slice(0, at).split(/\r\n?|\n/).length;
  }
  return 1;
}
