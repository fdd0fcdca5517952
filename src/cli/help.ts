import { createRequire } from 'node:module';
import { wrap } from '../diagnostics/index.js';
import { commandNames, commands } from './commands.js';
import type { Command, CommandName } from './commands.js';

/** Version of the package. */
export function version(): string {
  const found: unknown = createRequire(import.meta.url)('../../package.json');
  return typeof found === 'object' && found !== null && 'version' in found ? String(found.version) : '';
}

function listed(rows: readonly (readonly [string, string])[], width: number): string {
  const column = Math.max(...rows.map(([name]) => name.length)) + 4;
  return rows
    .map(([name, about]) => {
      const lines = wrap(about, Math.max(30, width - column));
      return `  ${name.padEnd(column - 2)}${lines.join(`\n${' '.repeat(column)}`)}\n`;
    })
    .join('');
}

/** What `barwise --help` prints. */
export function generalHelp(width: number): string {
  const rows = commandNames.map(
    name => [`${name} ${commands[name].operands}`.trim(), commands[name].about] as const,
  );
  return [
    `barwise ${version()}: lessons over a score, every claim checked against the notes\n`,
    `\nusage: barwise COMMAND ...\n\n`,
    listed(rows, width),
    '\n',
    listed(
      [
        ['COMMAND --help', 'the options of a command'],
        ['--version', 'the version of this program'],
      ],
      width,
    ),
    '\nexit code: 0 nothing fails; 1 a claim fails or a lesson has errors; 2 could not run\n',
  ].join('');
}

/** What `barwise COMMAND --help` prints. */
export function commandHelp(name: CommandName, width: number): string {
  const command: Command = commands[name];
  const options = Object.entries(command.options).map(
    ([option, { value, about }]) => [`--${option}${value === undefined ? '' : ` ${value}`}`, about] as const,
  );
  const about = wrap(command.about, width).join('\n');
  const list = options.length === 0 ? '' : `\n${listed(options, width)}`;
  return `usage: barwise ${name} ${command.operands}\n\n${about}\n${list}`;
}
