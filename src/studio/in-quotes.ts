/** Words of a message that stand between backticks, as a terminal has them, in quotation marks. */
export const inQuotes = (message: string): string => message.replace(/`([^`]*)`/gu, '“$1”');
