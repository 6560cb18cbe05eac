import { logPracticeAction } from "@/app/(desk)/pieces/[pieceId]/actions/log-practice";
import { removePracticeAction } from "@/app/(desk)/pieces/[pieceId]/actions/remove-practice";
import { restorePracticeAction } from "@/app/(desk)/pieces/[pieceId]/actions/restore-practice";
import type { SendPractice } from "./send-practice";

/** Where changes to the log go. */
export const practiceActions: SendPractice = {
  log: logPracticeAction,
  "take off": removePracticeAction,
  "bring back": restorePracticeAction,
};
