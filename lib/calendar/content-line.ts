/** Octets of a line at most, without its line break. Source: RFC 5545, 3.1. */
const longestLine = 75;

const encoder = new TextEncoder();

/**
 * One content line with its line break, folded: a line of more than 75 octets in UTF-8 goes on after a line break and a
 * space. No character is divided.
 *
 * Source: RFC 5545, 3.1 (content lines, folding), 3.1.4 (UTF-8).
 */
export function writeContentLine(name: string, value: string): string {
  const lines: string[] = [];
  let line = "";
  let octets = 0;
  for (const character of `${name}:${value}`) {
    const size = encoder.encode(character).byteLength;
    if (octets + size > longestLine) {
      lines.push(line);
      line = " ";
      octets = 1;
    }
    line += character;
    octets += size;
  }
  return `${[...lines, line].join("\r\n")}\r\n`;
}

/**
 * A value of type TEXT: backslash, semicolon and comma with a backslash before them, line breaks as `\n`; other control
 * characters, which no line may hold, are left out.
 *
 * Source: RFC 5545, 3.3.11 (TEXT), 3.1 (CONTROL is all controls but HTAB).
 */
export function escapeText(text: string): string {
  return (
    text
      .replace(/[\\;,]/g, (sign) => `\\${sign}`)
      .replace(/\r\n|\r|\n/g, "\\n")
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
      .replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, "")
  );
}
