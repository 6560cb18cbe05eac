import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/** What a PDF says and how. */
export interface ReadPdf {
  /** Text of each page, in drawing order. */
  readonly pages: readonly string[];
  /** Width and height in points. */
  readonly size: readonly number[];
  readonly info: Readonly<Record<string, unknown>>;
  readonly language: string | null;
  /** What stands for the pictures of page 1. */
  readonly alternatives: readonly string[];
  readonly fontNames: readonly string[];
  /** Whether every font is in the file, whole or as a subset. */
  readonly hasAllFonts: boolean;
}

/** Reads a PDF with a reader that is not the one that wrote it. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const raw = Buffer.from(bytes).toString("latin1");
  const document = await getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;
  const pages: string[] = [];
  let size: number[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    size = page.view.slice(2);
    const { items } = await page.getTextContent();
    pages.push(items.map((item) => ("str" in item ? item.str : "")).join(" "));
  }
  const tree = await (await document.getPage(1)).getStructTree();
  const metadata = await document.getMetadata();
  await document.loadingTask.destroy();
  const names = [...raw.matchAll(/\/FontName \/(\S+)/g)].map(([, name]) => name ?? "");
  const bases = new Set([...raw.matchAll(/\/BaseFont \/(\S+)/g)].map(([, name]) => name ?? ""));
  const files = raw.match(/\/FontFile2 \d+ 0 R/g)?.length ?? 0;
  return {
    pages,
    size,
    info: metadata.info as Record<string, unknown>,
    language: (metadata.info as { Language?: string }).Language ?? null,
    alternatives: [...JSON.stringify(tree).matchAll(/"alt":"([^"]*)"/g)].map(([, alt]) => alt ?? ""),
    fontNames: names,
    hasAllFonts: files === names.length && [...bases].every((name) => names.includes(name)),
  };
}
