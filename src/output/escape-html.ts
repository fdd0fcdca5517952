const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as HTML text or as a quoted attribute. */
export const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, sign => entities[sign] ?? sign);
