import { readLimits } from "./limits";

/** The text as the file has it; what is longer than anything printed in a score is cut and `tell` is called. */
export function clipText(text: string, tell: () => void): string {
  if (text.length <= readLimits.textCharacters) return text;
  tell();
  return `${text.slice(0, readLimits.textCharacters - 1)}…`;
}

export const clippedSentence = `A text of more than ${readLimits.textCharacters} characters was cut.`;
