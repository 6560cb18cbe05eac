import { utf8ToBytes } from "@noble/hashes/utils";
import { z } from "zod";
import { manifestName } from "@/lib/edition/archive/archive-entries";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";
import { writeArchive } from "@/lib/zip/write-archive";
import {
  type AccountArchive,
  accountSchema,
  programmesSchema,
  writtenInPieceSchema,
} from "./account-archive";
import { listEntries } from "./piece-entries";
import { sealOf } from "./seal";

const schemas = [
  ["account", accountSchema],
  ["piece", writtenInPieceSchema],
  ["programmes", programmesSchema],
] as const;

/** An account as a file to take along: the same account is always the same bytes. */
export function writeAccountArchive({
  account,
  pieces,
  programmes,
}: AccountArchive): Uint8Array<ArrayBuffer> {
  const files = new Map<string, Uint8Array>([
    ["README.txt", utf8ToBytes(readme)],
    ["account.json", json({ schema: 2, ...account })],
    ["programmes.json", json({ schema: 1, programmes })],
    ...[...pieces].map(([name, written]) => [name, json({ schema: 2, ...written })] as const),
    ...schemas.map(
      ([name, schema]) => [`schemas/${name}.schema.json`, json(z.toJSONSchema(schema))] as const,
    ),
  ]);
  const manifest = { schema: 1, kind: "account", entries: listEntries(files) };
  files.set(manifestName, json({ ...manifest, seal: sealOf(manifest) }));
  return writeArchive(files);
}

/** A schema of zod's is JSON, which its type does not say. */
const json = (value: object) => utf8ToBytes(canonicalJson(value as JsonValue));

const readme = `An account of Colla Parte, as it was when this file was made.

  account.json      name, e-mail address, what lies under the person's hands, and the pieces they belong or belonged to
  pieces/N.json     everything the person wrote in one piece: proposals, answers, approvals, comments, breaths and all
                    other marks, needed rests, performances, rewrites (also those that nobody else saw), practice; and
                    what they did, in order
  programmes.json   what they drew up for occasions
  schemas/          the JSON Schema of these files
  manifest.json     every file with its length and its SHA-256, sealed by a SHA-256 of its own

The password is not in it: only a hash of it is kept, and that is nobody's business. What others wrote is not in it
either; a whole piece is saved under its settings. JSON is in the form of RFC 8785, in UTF-8.
`;
