import { createHash } from "node:crypto";
import fs from "node:fs/promises";
import path from "node:path";

/** What it takes to make sound: the bank of instruments, and the program that plays it beside the page. */
const files = [
  {
    use: "bank",
    file: "app/_sound/bank/general-midi-12.sf3",
    name: "general-midi-12",
    ending: "sf3",
    type: "application/octet-stream",
  },
  {
    use: "processor",
    file: "node_modules/spessasynth_lib/dist/spessasynth_processor.min.js",
    name: "processor",
    ending: "js",
    type: "text/javascript; charset=utf-8",
  },
] as const;

export interface SoundFile {
  readonly address: string;
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Where a page fetches what it needs to make sound. The addresses name the content. */
export interface SoundAddresses {
  readonly bank: string;
  readonly processor: string;
}

/** So much of the SHA-256 as tells contents apart. */
const hashDigits = 16;

async function readFiles(): Promise<Record<(typeof files)[number]["use"], SoundFile>> {
  const read = files.map(async ({ use, file, name, ending, type }) => {
    const bytes = new Uint8Array(await fs.readFile(path.join(process.cwd(), file)));
    const hash = createHash("sha256").update(bytes).digest("hex").slice(0, hashDigits);
    return [use, { address: `/sound/${name}.${hash}.${ending}`, type, bytes }] as const;
  });
  const [bank, processor] = await Promise.all(read);
  if (!bank || !processor) throw new Error("The files for sound are not all there");
  return { bank: bank[1], processor: processor[1] };
}

let known: ReturnType<typeof readFiles> | null = null;

/** Read once for the life of the process. */
function soundFiles(): ReturnType<typeof readFiles> {
  known ??= readFiles().catch((error: unknown) => {
    known = null;
    throw error;
  });
  return known;
}

export async function soundAddresses(): Promise<SoundAddresses> {
  const { bank, processor } = await soundFiles();
  return { bank: bank.address, processor: processor.address };
}

/** The file with this name, such as "general-midi-12.0f….sf3"; null for any other name. */
export async function findSoundFile(name: string): Promise<SoundFile | null> {
  const all = Object.values(await soundFiles());
  return all.find(({ address }) => address === `/sound/${name}`) ?? null;
}
