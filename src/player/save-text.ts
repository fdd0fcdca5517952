/** Offers a text as a file of the browser's own download list; nothing leaves the device. */
export function saveText(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/plain;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 1000);
}

/** A title as the name of a file: letters and digits of any script, joined by hyphens. */
export const fileName = (title: string, ending: string): string => {
  const plain = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return `${plain === '' ? 'lesson' : plain}-${ending}.txt`;
};
