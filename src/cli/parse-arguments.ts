import { parseArgs } from 'node:util';
import { didYouMean } from '../diagnostics/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { Arguments, Command, Option } from './commands.js';
import { runFinding } from './report.js';

/** Sorts what was typed after a command's name, or says what is wrong with it. */
export function parseArguments(
  name: string,
  command: Command,
  words: readonly string[],
): Arguments | Diagnostic {
  const known: Readonly<Record<string, Option>> = { ...command.options, help: { about: 'show this text' } };
  const { tokens } = parseArgs({
    args: [...words],
    options: Object.fromEntries(
      Object.entries(known).map(([option, { value }]) => [
        option,
        { type: value === undefined ? 'boolean' : 'string' } as const,
      ]),
    ),
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const operands: string[] = [];
  const values: Record<string, string> = {};
  const switches = new Set<string>();
  for (const token of tokens) {
    if (token.kind === 'positional') operands.push(token.value);
    if (token.kind !== 'option') continue;
    const option = Object.hasOwn(known, token.name) ? known[token.name] : undefined;
    if (option === undefined) {
      const near = didYouMean(token.name, Object.keys(known))?.replace('`', '`--');
      return runFinding(
        'R0008',
        `\`${name}\` has no option \`${token.rawName}\``,
        near ?? `see \`barwise ${name} --help\``,
      );
    }
    const { value } = token;
    if (option.value === undefined) {
      if (value !== undefined)
        return runFinding('R0008', `\`--${token.name}\` takes no value`, `write \`--${token.name}\` alone`);
      switches.add(token.name);
    } else if (value === undefined || value === '') {
      return runFinding(
        'R0008',
        `\`--${token.name}\` needs a value`,
        `write \`--${token.name} ${option.value}\``,
      );
    } else values[token.name] = value;
  }
  return switches.has('help')
    ? { operands, values, switches }
    : (wrongCount(name, command, operands) ?? { operands, values, switches });
}

function wrongCount(name: string, command: Command, operands: readonly string[]): Diagnostic | undefined {
  const usage = `usage: barwise ${name} ${command.operands}`;
  if (operands.length < command.least)
    return runFinding('R0009', `\`${name}\` needs ${command.operands}`, usage);
  if (operands.length <= command.most) return undefined;
  return runFinding(
    'R0009',
    `\`${name}\` takes ${command.most === 1 ? 'one' : command.most} ${command.operands}, and there are ${operands.length}`,
    usage,
  );
}
