import type { BreathPreferences } from "@/lib/breath/breath-preferences";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import type { PartRole } from "@/lib/score/part";
import type { MemberRole } from "../who-may";

/** Somebody who belongs to a piece. */
export interface MemberRecord {
  readonly userId: string;
  readonly name: string;
  readonly role: MemberRole;
  /** First letter of the name, for the mark. */
  readonly initial: string;
}

/** The file a piece is prepared from. */
export interface SourceRecord {
  readonly id: string;
  /** SHA-256 (hex) of the bytes. */
  readonly hash: string;
  readonly fileName: string;
  readonly byteLength: number;
  /** Part id → what the part is for. */
  readonly partRoles: Readonly<Record<string, PartRole>>;
  readonly hasFullScore: boolean;
}

export interface PieceRecord {
  readonly id: string;
  readonly title: string;
  readonly movement: string | null;
  readonly composer: string | null;
  readonly soloInstrument: string | null;
  /** What it is prepared for, "Recital", beside others of the same music; null while nobody has named it. */
  readonly occasion: string | null;
  readonly limitSeconds: number | null;
  readonly createdAt: Date;
  /** When something of it outside its room was last changed. */
  readonly changedAt: Date;
  readonly source: SourceRecord;
  readonly settings: TempoTerms;
  /** A tutti of more bars than this is long. */
  readonly longTuttiBars: number;
  /** The soloist's own numbers; null while those for the instrument hold, and for a reader. */
  readonly breath: BreathPreferences | null;
  /** Players first, in the order of joining. */
  readonly members: readonly MemberRecord[];
  /** Who left or was removed; what they wrote stays under their names. */
  readonly formerMembers: readonly MemberRecord[];
  readonly myRole: MemberRole;
}

/** The first letter of a name, as a person would see it: accents and surrogate pairs stay whole. */
export function initialOf(name: string): string {
  const [first] = new Intl.Segmenter(undefined, { granularity: "grapheme" }).segment(name.trim());
  return (first?.segment ?? "?").toLocaleUpperCase();
}
