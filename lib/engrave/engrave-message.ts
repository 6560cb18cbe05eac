import type { CutSpan } from "@/lib/score/cut-span";
import type { ScreenLayoutName } from "./engrave-layout";
import type { EditionPreview } from "./pages/edition-preview";
import type { LaidOutEdition } from "./pages/laid-out-edition";
import type { DrawnPassage } from "./passage/drawn-passage";
import type { PassageInput } from "./passage/passage-input";
import type { ChangeSheetInput } from "./pdf/change-sheet-input";
import type { CutSheetInput } from "./pdf/cut-sheet-input";
import type { PrintedEdition, PrintInput } from "./pdf/print-input";
import type { EngravedSystem, ScreenEngraving } from "./screen-engraving";

/** What is engraved for a screen: MusicXML text as it stands (of one part, with its rests gathered), or some parts of a source with cuts carried out. */
export type ScreenMusic =
  | { readonly musicXml: string; readonly condensesRests?: boolean }
  | { readonly source: Uint8Array; readonly partIds: readonly string[]; readonly cuts: readonly CutSpan[] };

/** What the thread that engraves can be asked for. Everything in a message is plain data. */
export type EngraveJob =
  | { readonly kind: "screen"; readonly music: ScreenMusic; readonly layout: ScreenLayoutName }
  | { readonly kind: "passage"; readonly input: PassageInput }
  | { readonly kind: "edition"; readonly input: PrintInput }
  | { readonly kind: "edition-pages"; readonly input: PrintInput }
  | { readonly kind: "edition-preview"; readonly input: PrintInput }
  | { readonly kind: "change-sheet"; readonly input: ChangeSheetInput }
  | { readonly kind: "cut-sheet"; readonly input: CutSheetInput };

/** What each kind of job answers with. */
export interface EngraveResults {
  readonly screen: ScreenEngraving;
  readonly passage: DrawnPassage;
  readonly edition: PrintedEdition;
  readonly "edition-pages": LaidOutEdition;
  readonly "edition-preview": EditionPreview;
  readonly "change-sheet": Uint8Array;
  readonly "cut-sheet": Uint8Array;
}

/** To the thread. */
export interface EngraveRequest {
  readonly id: number;
  readonly job: EngraveJob;
}

/**
 * From the thread, once, when its engraver has started: the engraver's code as compiled. While anybody holds it, the next
 * thread takes it over with all that has been made faster in it, instead of compiling it anew (V8 knows it by its bytes).
 */
export interface EngraverCode {
  readonly kind: "code";
  readonly compiled: WebAssembly.Module;
}

/** From the thread, of a request. `done` and `failed` end a request; `memory` is the engraver's, in bytes. */
export type EngraveReply =
  | { readonly id: number; readonly kind: "progress"; readonly progress: number }
  | {
      readonly id: number;
      readonly kind: "system";
      readonly system: EngravedSystem;
      readonly systemCount: number;
    }
  | { readonly id: number; readonly kind: "done"; readonly value: unknown; readonly memory: number }
  | { readonly id: number; readonly kind: "failed"; readonly detail: string; readonly memory: number };
