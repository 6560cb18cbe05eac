import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";

/** The engraver: verovio (LGPL-3.0-or-later), unmodified, loaded as a package of its own. */
export interface Engraver {
  readonly toolkit: VerovioToolkit;
  /** Memory of the engraver in bytes. It grows with the largest score and never shrinks. */
  readonly memory: () => number;
}

/** Starts the engraver. To free its memory, end the thread it runs in. */
export async function openEngraver(): Promise<Engraver> {
  const ignore = () => {};
  const module = await createVerovioModule({ print: ignore, printErr: ignore });
  return { toolkit: new VerovioToolkit(module), memory: () => module.HEAPU8.length };
}
