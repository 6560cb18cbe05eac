import type { BreathPreferences } from "@/lib/breath/breath-preferences";
import { breathPreferencesSchema } from "@/lib/breath/breath-preferences-schema";

/** The numbers as they stand in the form; an empty one does not matter. */
export interface NumbersText {
  readonly comfortable: string;
  readonly restPerPlayed: string;
  readonly catch: string;
  readonly window: string;
}

export function writeNumbers(preferences: BreathPreferences): NumbersText {
  const text = (value: number | null) => (value === null ? "" : `${value}`);
  return {
    comfortable: text(preferences.comfortableSeconds),
    restPerPlayed: text(preferences.restPerPlayed),
    catch: text(preferences.catchSeconds),
    window: text(preferences.windowSeconds),
  };
}

/** Null when one of them is no number that makes sense. */
export function readNumbers(text: NumbersText): BreathPreferences | null {
  const read = (value: string) => {
    const trimmed = value.trim().replace(",", ".");
    return trimmed === "" ? null : Number(trimmed);
  };
  const parsed = breathPreferencesSchema.safeParse({
    comfortableSeconds: read(text.comfortable),
    restPerPlayed: read(text.restPerPlayed),
    catchSeconds: read(text.catch),
    windowSeconds: read(text.window),
  });
  return parsed.success ? parsed.data : null;
}
