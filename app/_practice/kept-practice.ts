import { browserStorage, type ItemKind, type ItemStorage, KeptItems } from "@/app/_offline/kept-items";
import { type PracticeChange, practiceChangeSchema } from "./practice-change";

/** The first made first. */
const changes: ItemKind<PracticeChange> = {
  name: "practice",
  schema: practiceChangeSchema,
  idOf: ({ changeId }) => changeId,
  compare: (a, b) => a.madeAt - b.madeAt || a.changeId.localeCompare(b.changeId),
};

export type KeptPractice = KeptItems<PracticeChange>;

/** What one pianist logged on this device and the server does not have yet. */
export function keptPractice(userId: string, storage: ItemStorage = browserStorage()): KeptPractice {
  return new KeptItems(changes, userId, storage);
}
