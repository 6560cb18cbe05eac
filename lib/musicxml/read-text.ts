import type { Notice } from "@/lib/score/notice";
import { failure, type Result, success } from "@/lib/score/result";
import { isZip } from "@/lib/zip/unpack-entry";
import { decodeText } from "./decode-text";
import { readLimits } from "./limits";
import { openContainer } from "./open-container";
import type { ReadProblem } from "./read-problem";

/** The XML text of a .musicxml, .xml or .mxl file; refuses what is no XML before it is parsed. */
export function readText(
  bytes: Uint8Array,
): Result<{ readonly text: string; readonly notices: readonly Notice[] }, ReadProblem> {
  if (bytes.length === 0) return failure({ kind: "empty-file" });
  if (bytes.length > readLimits.fileBytes)
    return failure({ kind: "file-too-large", byteLength: bytes.length });
  if (!isZip(bytes)) return decode(bytes, []);
  const opened = openContainer(bytes);
  return opened.ok ? decode(opened.value.score, opened.value.notices) : opened;
}

function decode(bytes: Uint8Array, notices: readonly Notice[]) {
  if (bytes.length === 0) return failure({ kind: "empty-file" } as const);
  const looksLike = otherFormat(bytes);
  if (looksLike !== null) return failure({ kind: "not-musicxml", looksLike } as const);
  const decoded = decodeText(bytes);
  if (!decoded.ok) return decoded;
  const { text, encoding, falselyDeclared } = decoded.value;
  if (text.length > readLimits.textBytes) return failure({ kind: "text-too-large" } as const);
  if (!/^\s*</.test(text)) return failure({ kind: "not-musicxml", looksLike: null } as const);
  if (falselyDeclared === null) return success({ text, notices });
  return success({ text, notices: [...notices, falseEncodingNotice(falselyDeclared, encoding)] });
}

function falseEncodingNotice(declared: string, used: string): Notice {
  return {
    kind: "encoding-declared-falsely",
    sentence: `The file says its text is in “${declared.slice(0, 40)}”, but it is in ${used.toUpperCase()} and was read so.`,
    partName: null,
    barLabel: null,
  };
}

const signatures: readonly (readonly [string, string])[] = [
  ["%PDF", "a PDF"],
  ["\x89PNG", "an image (PNG)"],
  ["\xff\xd8\xff", "an image (JPEG)"],
  ["GIF8", "an image (GIF)"],
  ["MThd", "a MIDI file"],
  ["RIFF", "a sound or video file"],
  ["ID3", "a sound file"],
  ["\x1f\x8b", "a gzip archive"],
  ["{", "a JSON file"],
  ["PK\x03\x04", "one compressed file inside another"],
];

function otherFormat(bytes: Uint8Array): string | null {
  const start = String.fromCharCode(...bytes.subarray(0, 300));
  const known = signatures.find(([signature]) => start.trimStart().startsWith(signature));
  if (known) return known[1];
  return /^(?:\xef\xbb\xbf)?\s*(?:<!doctype html|<html)/i.test(start) ? "a web page" : null;
}
