/** Text that goes into XML or HTML: every character that XML 1.0 has, and nothing that would be read as markup. */

/** Everything but Char of XML 1.0 (W3C, Extensible Markup Language, fifth edition, 2008, production 2), halves of pairs included. */
const NO_XML_CHARACTER = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** For element content and quoted attributes; a character that XML can't hold becomes U+FFFD. */
export const escapeMarkup = (text: string): string =>
  text.replace(NO_XML_CHARACTER, '\u{fffd}').replace(/[&<>"']/g, (each) => ESCAPES[each] ?? each)
