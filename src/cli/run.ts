import { didYouMean, renderDiagnostic } from '../diagnostics/index.js';
import { processWord } from './process-word.js';
import { commandNames, commands } from './commands.js';
import type { Command, CommandName } from './commands.js';
import type { ExitCode } from './exit-code.js';
import { commandHelp, generalHelp, version } from './help.js';
import { parseArguments } from './parse-arguments.js';
import { complain, runFinding } from './report.js';
import type { Terminal } from './terminal.js';

const isCommand = (name: string): name is CommandName => commandNames.some(known => known === name);

/** Runs the program. Bad input is a finding; anything that is thrown is a fault of the program, exits with 2 and says so. */
export async function run(words: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const [first, ...rest] = words;
  const { width } = terminal.layout;
  if (process.send !== undefined && first === processWord)
    return (await import('./check-process.js')).checkInProcess();
  if (first === '--version') return print(terminal, `${version()}\n`);
  if (first === '--help' || first === '-h') return print(terminal, generalHelp(width));
  if (first === 'help') {
    const [about] = rest;
    if (about === undefined) return print(terminal, generalHelp(width));
    if (isCommand(about)) return print(terminal, commandHelp(about, width));
    return unknownCommand(terminal, about);
  }
  if (first === undefined) {
    terminal.writeError(generalHelp(terminal.errorLayout.width));
    return 2;
  }
  if (!isCommand(first)) return unknownCommand(terminal, first);
  const command: Command = commands[first];
  const typed = parseArguments(first, command, rest);
  if ('code' in typed) {
    complain(terminal, typed);
    return 2;
  }
  if (typed.switches.has('help')) return print(terminal, commandHelp(first, width));
  try {
    return await (
      await command.load()
    )(typed, terminal);
  } catch (error) {
    reportFault(terminal, error);
    return 2;
  }
}

function print(terminal: Terminal, text: string): ExitCode {
  terminal.write(text);
  return 0;
}

function unknownCommand(terminal: Terminal, name: string): ExitCode {
  const code = name.startsWith('-') ? 'R0008' : 'R0007';
  const what = name.startsWith('-') ? 'option' : 'command';
  const help =
    didYouMean(name, commandNames) ?? `commands: ${commandNames.map(known => `\`${known}\``).join(', ')}`;
  complain(terminal, runFinding(code, `there is no ${what} \`${name}\``, help));
  return 2;
}

function reportFault(terminal: Terminal, error: unknown): void {
  const finding = runFinding(
    'R0010',
    'this is a fault of the program, not of your files',
    `please report it with the lesson, the score and the lines below; this is version ${version()}`,
  );
  terminal.writeError(renderDiagnostic(finding, terminal.errorLayout));
  terminal.writeError(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
}
