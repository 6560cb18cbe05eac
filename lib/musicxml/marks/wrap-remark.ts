/** Characters of a line over a staff, and lines: more would cover the music. The whole remark stands on its own sheet. */
const longestLine = 34;
const mostLines = 4;

/** A remark as it is printed over a staff: in short lines, with its author's short name behind it. */
export function wrapRemark(text: string, by: string): string {
  const lines: string[] = [];
  for (const word of [...text.trim().split(/\s+/), `(${shortName(by)})`]) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > longestLine) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  if (lines.length <= mostLines) return lines.join("\n");
  return `${lines.slice(0, mostLines).join("\n")} … (${shortName(by)})`;
}

/** "N. Quill" for "Nerys Quill". */
export function shortName(name: string): string {
  const words = name.trim().split(/\s+/);
  const last = words.at(-1) ?? "";
  const first = words.length > 1 ? [...(words[0] ?? "")][0] : undefined;
  return first ? `${first.toUpperCase()}. ${last}` : last;
}
