/** The parts of the engraving library that are used. Version 6.3.0 ships no types. */
declare module "verovio/wasm" {
  export interface VerovioModule {
    readonly HEAPU8: Uint8Array;
  }
  /** Compiles and starts the WebAssembly module; options are those of Emscripten. */
  export default function createVerovioModule(options?: {
    print?: (line: string) => void;
    printErr?: (line: string) => void;
  }): Promise<VerovioModule>;
}

declare module "verovio/esm" {
  import type { VerovioModule } from "verovio/wasm";

  export class VerovioToolkit {
    constructor(module: VerovioModule);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    loadData(data: string): boolean;
    getMEI(options?: Readonly<Record<string, unknown>>): string;
    getPageCount(): number;
    renderToSVG(page: number): string;
    renderToTimemap(options?: Readonly<Record<string, unknown>>): unknown[];
    getLog(): string;
    getVersion(): string;
    destroy(): void;
  }
}
