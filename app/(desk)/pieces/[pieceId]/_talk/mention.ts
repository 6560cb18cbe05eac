import type { Desk, DeskPerson } from "@/app/_data/desk/desk";
import { findMentions } from "@/lib/room/find-mentions";

/** A person who can be named in a comment, and the name that stands for them after the "@". */
export interface Nameable {
  readonly person: DeskPerson;
  /** The first name where it is one person's alone, else the whole name. */
  readonly name: string;
}

/** Whoever reads the comments, oneself left out. */
export function listNameable({ people, me }: Pick<Desk, "people" | "me">): Nameable[] {
  const here = people.filter(({ hasLeft, role }) => !hasLeft && role !== "reader");
  const first = (name: string) => name.trim().split(/\s+/)[0] ?? name;
  return here
    .filter(({ userId }) => userId !== me.userId)
    .map((person) => {
      const name = first(person.name);
      const isShared = here.some(
        (other) => other.userId !== person.userId && isSame(first(other.name), name),
      );
      return { person, name: isShared ? person.name : name };
    });
}

function isSame(a: string, b: string): boolean {
  return a.toLocaleLowerCase() === b.toLocaleLowerCase();
}

/** An "@" that is being typed, and what stands between it and the caret. */
export interface MentionBegun {
  readonly at: number;
  readonly query: string;
}

/** The "@" the caret stands behind; null when none is being typed. One inside a word is part of an address. */
export function findMentionBegun(text: string, caret: number): MentionBegun | null {
  const found = /(?:^|[^\p{L}\p{N}_.@-])@([\p{L}\p{M}’'. -]{0,40})$/u.exec(text.slice(0, caret));
  if (!found) return null;
  const query = found[1] ?? "";
  return { at: caret - query.length - 1, query };
}

/** The people whose name begins as the query does, by any word of it. */
export function matchNames(nameable: readonly Nameable[], query: string): Nameable[] {
  const begun = query.toLocaleLowerCase();
  return nameable.filter(({ person }) => {
    const name = person.name.toLocaleLowerCase();
    return name.startsWith(begun) || name.split(/\s+/).some((word) => word.startsWith(begun));
  });
}

/** The text with the chosen name in place of what was begun, and where the caret goes: behind one space. */
export function putName(
  text: string,
  { at, query }: MentionBegun,
  name: string,
): { text: string; caret: number } {
  const rest = text.slice(at + 1 + query.length).replace(/^ /, "");
  const before = `${text.slice(0, at)}@${name} `;
  return { text: before + rest, caret: before.length };
}

/** A stretch of a comment: plain words, or somebody's name. */
export interface CommentStretch {
  readonly text: string;
  readonly person: DeskPerson | null;
}

/** A comment's text cut at the names that mention somebody. */
export function splitMentions(text: string, people: readonly DeskPerson[]): CommentStretch[] {
  const named = people.filter(({ hasLeft }) => !hasLeft);
  const names = named.flatMap(({ name }) => [name, name.trim().split(/\s+/)[0] ?? name]).filter(Boolean);
  if (names.length === 0) return [{ text, person: null }];
  const longestFirst = [...new Set(names)].sort((a, b) => b.length - a.length).map(toPattern);
  const pattern = new RegExp(`(?<![\\p{L}\\p{M}\\p{N}_.+-])@(?:${longestFirst.join("|")})`, "giu");
  const stretches: CommentStretch[] = [];
  let done = 0;
  for (const match of text.matchAll(pattern)) {
    // What follows decides whether it is a name at all: "@Nerys" in "@Neryssa" is not.
    const [userId] = findMentions(firstWords(text.slice(match.index), match[0]), named);
    const person = named.find((one) => one.userId === userId);
    if (!person) continue;
    stretches.push({ text: text.slice(done, match.index), person: null }, { text: match[0], person });
    done = match.index + match[0].length;
  }
  stretches.push({ text: text.slice(done), person: null });
  return stretches.filter((stretch) => stretch.text !== "");
}

/** The name and the two characters behind it: enough to tell whether it goes on. */
function firstWords(rest: string, name: string): string {
  return rest.slice(0, name.length + 2);
}

function toPattern(name: string): string {
  return name
    .trim()
    .split(/\s+/)
    .map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"))
    .join("\\s+");
}
