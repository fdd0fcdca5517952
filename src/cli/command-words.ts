/** Words of a command as a user types it: parted by blanks, single or double quotes around a word with blanks. */
export const commandWords = (command: string): readonly string[] =>
  [...command.matchAll(/"([^"]*)"|'([^']*)'|\S+/gu)].map(
    ([word, double, single]) => double ?? single ?? word,
  );
