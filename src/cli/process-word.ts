/** With this word the program starts itself as a process that checks lessons for another; nobody types it. */
export const processWord = 'check-in-a-process';
