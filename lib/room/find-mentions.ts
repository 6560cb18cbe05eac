/** Someone who can be mentioned. */
export interface Mentionable {
  readonly userId: string;
  readonly name: string;
}

/**
 * Whom a text mentions, in the order in which it does: "@Nerys Quill", or "@Nerys" where nobody else is called so.
 * Upper and lower case are alike. An `@` inside a word or an e-mail address mentions nobody.
 *
 * @returns user ids, each once.
 */
export function findMentions(text: string, people: readonly Mentionable[]): string[] {
  const names = listNames(people);
  const folded = fold(text);
  const found = new Set<string>();
  for (const { index } of folded.matchAll(/(?<![\p{L}\p{M}\p{N}_.+-])@/gu)) {
    const rest = folded.slice(index + 1);
    const mentioned = names.find(({ name }) => rest.startsWith(name) && isWordEnd(rest.slice(name.length)));
    if (mentioned) found.add(mentioned.userId);
  }
  return [...found];
}

/** Full names before first names, longer ones first, so that the longest that fits is meant. */
function listNames(people: readonly Mentionable[]): Mentionable[] {
  const full = people.map(({ userId, name }) => ({ userId, name: fold(name).trim() }));
  const first = full.map(({ userId, name }) => ({ userId, name: name.split(" ")[0] ?? "" }));
  const isMeantAlone = ({ userId, name }: Mentionable) =>
    first.every((other) => other.userId === userId || other.name !== name);
  return [...full, ...first.filter(isMeantAlone)]
    .filter(({ name }) => name !== "")
    .sort((a, b) => b.name.length - a.name.length);
}

function fold(text: string): string {
  return text.normalize("NFC").toLowerCase().replace(/\s+/gu, " ");
}

/** Whether what follows a name does not go on with it, nor makes an address of it. */
function isWordEnd(rest: string): boolean {
  return !/^(?:[\p{L}\p{M}\p{N}_@]|[.-][\p{L}\p{N}])/u.test(rest);
}
