import type { DeskBar, DeskPerson } from "@/app/_data/desk/desk";
import type { Comment } from "@/lib/room/comment";
import { quarters } from "@/lib/score/quarters";

/** Twenty bars of 4/4, numbered from 1. */
export const bars: DeskBar[] = Array.from({ length: 20 }, (_, index) => ({
  ...{ label: `${index + 1}`, length: "4", beats: ["0", "1", "2", "3"], solo: "" },
}));

export function person(userId: string, name: string, role: DeskPerson["role"], hasLeft = false): DeskPerson {
  return { userId, name, role, initial: name.charAt(0), hasLeft };
}

export const nerys = person("n", "Nerys Quill", "pianist");
export const matthis = person("m", "Matthis Orban", "soloist");
export const dagny = person("d", "Dagny Thorsell", "coach");
export const people = [nerys, matthis, dagny];

/** A comment on whole bars by their printed numbers. */
export function comment(id: string, change: Partial<Comment> = {}, [first, last] = [3, 4]): Comment {
  const place = (barIndex: number) => ({ barIndex, offset: quarters(0, 1) });
  return {
    ...{ id, authorId: "n", createdAt: "2026-02-22T10:00:00.000Z", text: "Softer." },
    about: { kind: "span", from: place(first - 1), to: place(last) },
    ...{ replyTo: null, resolvedBy: null, reopenedBy: null, deletedAt: null, editedAt: null, print: false },
    ...change,
  };
}
