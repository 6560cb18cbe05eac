import type { Desk, DeskPerson } from "@/app/_data/desk/desk";

/** "Tobias"; whole where there is one name only. */
export function firstName({ name, hasLeft }: Pick<DeskPerson, "name" | "hasLeft">): string {
  return hasLeft ? name : (name.split(" ")[0] ?? name);
}

/** Somebody of the piece by id; a stranger's mark for an id nobody has. */
export function personOf({ people }: Pick<Desk, "people">, userId: string): DeskPerson {
  return (
    people.find((person) => person.userId === userId) ?? {
      ...{ userId, name: "Someone who left", initial: "–", role: "reader", hasLeft: true },
    }
  );
}

/** The player who answers what the other puts forward; null while that place is empty. */
export function otherPlayer({ people, me }: Pick<Desk, "people" | "me">): DeskPerson | null {
  const other = me.role === "pianist" ? "soloist" : "pianist";
  return people.find(({ role, hasLeft }) => role === other && !hasLeft) ?? null;
}

export function soloistOf({ people }: Pick<Desk, "people">): DeskPerson | null {
  return people.find(({ role, hasLeft }) => role === "soloist" && !hasLeft) ?? null;
}

/** The soloist as sentences name them: "you" for themselves. */
export function nameSoloist(desk: Pick<Desk, "people" | "me">): string {
  if (desk.me.role === "soloist") return "you";
  const soloist = soloistOf(desk);
  return soloist ? firstName(soloist) : "the soloist";
}

/** "Tobias’s", "Your". */
export function whose(person: DeskPerson | null, me: DeskPerson, fallback: string): string {
  if (person === null) return fallback;
  return person.userId === me.userId ? "Your" : `${firstName(person)}’s`;
}

/** "you", "Tobias". */
export function sayWho({ me }: Pick<Desk, "me">, person: DeskPerson): string {
  return person.userId === me.userId ? "you" : firstName(person);
}
