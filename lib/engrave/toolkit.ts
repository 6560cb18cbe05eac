import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";

/** The engraver: verovio (LGPL-3.0-or-later), unmodified, loaded as a package of its own. */
export interface Engraver {
  readonly toolkit: VerovioToolkit;
  /** Memory of the engraver in bytes. It grows with the largest score and never shrinks. */
  readonly memory: () => number;
  /** Its code as compiled in this process. As long as somebody holds it, it is not compiled again; it can be sent to another thread. */
  readonly compiled: WebAssembly.Module;
}

/** Starts the engraver. To free its memory, end the thread it runs in. */
export async function openEngraver(): Promise<Engraver> {
  const ignore = () => {};
  const { made, compiled } = await catchCompiled(() =>
    createVerovioModule({ print: ignore, printErr: ignore }),
  );
  return { toolkit: new VerovioToolkit(made), memory: () => made.HEAPU8.length, compiled };
}

/**
 * Runs what compiles WebAssembly once, and gives its module beside the result: the package keeps it to itself (verovio 6.3.0 has
 * none of Emscripten's ways to hand one in or out).
 */
async function catchCompiled<T>(
  run: () => Promise<T>,
): Promise<{ readonly made: T; readonly compiled: WebAssembly.Module }> {
  const plain = WebAssembly.instantiate;
  let compiled: WebAssembly.Module | null = null;
  async function instantiate(bytes: BufferSource, imports?: WebAssembly.Imports) {
    const result = await plain(bytes, imports);
    compiled = result.module;
    return result;
  }
  WebAssembly.instantiate = instantiate as typeof plain;
  try {
    const made = await run();
    if (!compiled) throw new Error("The engraver was started without being compiled");
    return { made, compiled };
  } finally {
    WebAssembly.instantiate = plain;
  }
}
