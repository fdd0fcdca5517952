import { plainPalette } from '../diagnostics/index.js';
import type { FrameOptions, Palette } from '../diagnostics/index.js';

/** Where a command writes. */
export interface Terminal {
  /** How text for standard output is laid out and coloured. */
  readonly layout: FrameOptions;
  /** The same for standard error. */
  readonly errorLayout: FrameOptions;
  readonly write: (text: string) => void;
  readonly writeError: (text: string) => void;
  /** Shows what is being done, on a terminal and only once the work has taken a moment; `undefined` clears it. */
  readonly progress: (text: string | undefined) => void;
  /**
   * Shows a text in the place of the one before; where output is no terminal, below it. `foot` stays in sight however long the text is.
   */
  readonly redraw: (text: string, foot: string) => void;
}

const defaultWidth = 80;
/** Shorter work would only flicker. */
const quietMilliseconds = 400;

/** Escape sequences of ECMA-48 (SGR) for each part of a frame. */
const sgr = (code: string) => (text: string) => (text === '' ? '' : `\u001B[${code}m${text}\u001B[0m`);
const colours: Palette = {
  error: sgr('1;31'),
  warning: sgr('1;33'),
  note: sgr('1;36'),
  good: sgr('32'),
  place: sgr('2'),
  margin: sgr('2'),
  strong: sgr('1'),
};

function layoutOf(stream: NodeJS.WriteStream): FrameOptions {
  // `hasColors` knows NO_COLOR (no-color.org), FORCE_COLOR, TERM=dumb; it exists on terminals only.
  const coloured = stream.isTTY && stream.hasColors();
  return { width: widthOf(stream), palette: coloured ? colours : plainPalette };
}

function widthOf(stream: NodeJS.WriteStream): number {
  const asked = Number(process.env['COLUMNS']);
  if (stream.isTTY && stream.columns > 0) return stream.columns;
  return Number.isInteger(asked) && asked > 0 ? asked : defaultWidth;
}

/** A text cut so that it and its foot fill no more lines than a screen has, with a line that tells of the rest. */
export function fitted(body: string, foot: string, rows: number): string {
  const lines = body.split('\n');
  // The cursor stands on a line of its own below the foot.
  const room = rows - foot.split('\n').length;
  if (lines.length - 1 <= room || room < 2) return body + foot;
  const left = lines.length - room;
  return `${lines.slice(0, room - 1).join('\n')}\n... ${String(left)} more lines: see them without \`--watch\`\n${foot}`;
}

/** The terminal of this process. */
export function processTerminal(): Terminal {
  const { stdout, stderr } = process;
  // A reader that has seen enough (`barwise check . | head`) closes the pipe; that is no fault.
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  const started = performance.now();
  let shown = false;
  const progress = (text: string | undefined): void => {
    if (!stderr.isTTY || (text !== undefined && performance.now() - started < quietMilliseconds)) return;
    if (text === undefined && !shown) return;
    // Return to the line's beginning and erase it (ECMA-48: CR, EL).
    stderr.write(`\r\u001B[K${text === undefined ? '' : text.slice(0, widthOf(stderr) - 1)}`);
    shown = text !== undefined;
  };
  return {
    layout: layoutOf(stdout),
    errorLayout: layoutOf(stderr),
    write: text => {
      progress(undefined);
      stdout.write(text);
    },
    writeError: text => {
      progress(undefined);
      stderr.write(text);
    },
    progress,
    redraw: (body, foot) => {
      progress(undefined);
      const text = stdout.isTTY ? fitted(body, foot, stdout.rows) : body + foot;
      // From the upper left corner, each line to its end, then everything below (ECMA-48: CUP, EL, ED): nothing flickers.
      stdout.write(stdout.isTTY ? `\u001B[H${text.replaceAll('\n', '\u001B[K\n')}\u001B[J` : text);
    },
  };
}
