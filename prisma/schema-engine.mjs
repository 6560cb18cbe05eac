import fs from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { PrismaPg } from "@prisma/adapter-pg";
import { bindMigrationAwareSqlAdapterFactory, ColumnTypeEnum } from "@prisma/driver-adapter-utils";
import pg from "pg";

/**
 * The SQL that would turn a database into what the schema describes; empty when it is that already.
 *
 * @param {string} url of a database in which the migrations have been applied.
 * @param {string} schemaFile path of `schema.prisma`.
 * @returns {Promise<string>}
 * @throws Error if the schema cannot be read by Prisma.
 */
export async function compareDatabaseToSchema(url, schemaFile) {
  const schema = fs.readFileSync(schemaFile, "utf8");
  const engine = await openEngine(url, schema);
  const files = [{ path: "schema.prisma", content: schema }];
  try {
    const difference = await engine.diff({
      from: { tag: "schemaDatasource", files, configDir: path.dirname(schemaFile) },
      to: { tag: "schemaDatamodel", files },
      script: true,
      exitCode: true,
      filters: { externalTables: [], externalEnums: [] },
    });
    // Exit code 2 is Prisma's "there is a difference"; without one the script is a comment that says so.
    return difference.exitCode === 2 ? (difference.stdout ?? "") : "";
  } finally {
    engine.free();
  }
}

/**
 * @param {string} url
 * @param {string} schema
 */
async function openEngine(url, schema) {
  loading ??= loadEngine();
  const { SchemaEngine } = await loading;
  const models = [["schema.prisma", schema]];
  return SchemaEngine.new(
    /** @type {never} */ ({ datamodels: models }),
    () => {},
    /** @type {never} */ (bindMigrationAwareSqlAdapterFactory(adapterFactory(url))),
  );
}

/** @type {ReturnType<typeof loadEngine> | undefined} */
let loading;

/**
 * Prisma's schema engine, as WebAssembly: its native build would have to be downloaded. Loaded once, as its
 * glue keeps views of one memory.
 */
async function loadEngine() {
  const glue = await import("@prisma/schema-engine-wasm/schema_engine_bg");
  const binary = path.join(
    path.dirname(createRequire(import.meta.url).resolve("@prisma/schema-engine-wasm")),
    "schema_engine_bg.wasm",
  );
  const module = await WebAssembly.compile(fs.readFileSync(binary));
  // The typings leave out what the package's own entry calls to tie the two together.
  const loader = /** @type {{ __wbg_set_wasm(exports: object): void }} */ (/** @type {unknown} */ (glue));
  const { exports } = await WebAssembly.instantiate(module, {
    "./schema_engine_bg.js": /** @type {WebAssembly.ModuleImports} */ (/** @type {unknown} */ (glue)),
  });
  loader.__wbg_set_wasm(exports);
  /** @type {() => void} */ (exports.__wbindgen_start)();
  return glue;
}

/**
 * @param {string} url
 * @returns {import("@prisma/driver-adapter-utils").SqlMigrationAwareDriverAdapterFactory}
 */
function adapterFactory(url) {
  return {
    provider: "postgres",
    adapterName: "@prisma/adapter-pg",
    connect: () => connectToCatalogue(url),
    connectToShadowDb: () => Promise.reject(new RangeError("this comparison needs no second database")),
  };
}

/** PostgreSQL's one-byte catalogue type "char" and its ordinary text, by their numbers in `pg_type`. */
const oneByteChar = 18;
const text = 25;

/**
 * An adapter that can read the system catalogues. Prisma's own knows no "char", which the catalogues use and
 * the engine insists on, so such columns pass through it as text and are renamed on the way out.
 *
 * @param {string} url
 */
async function connectToCatalogue(url) {
  /** @type {Set<string>} */
  const charColumns = new Set();
  const pool = new pg.Pool({ connectionString: url });
  const query = /** @type {(...of: unknown[]) => Promise<pg.QueryResult>} */ (pool.query.bind(pool));
  const queryAsText = async (/** @type {unknown[]} */ ...of) => {
    const result = await query(...of);
    for (const field of result.fields.filter((field) => field.dataTypeID === oneByteChar)) {
      charColumns.add(field.name);
      field.dataTypeID = text;
    }
    return result;
  };
  pool.query = /** @type {typeof pool.query} */ (/** @type {unknown} */ (queryAsText));
  const adapter = await new PrismaPg(pool, { disposeExternalPool: true }).connect();
  const queryRaw = adapter.queryRaw.bind(adapter);
  adapter.queryRaw = async (/** @type {Parameters<typeof queryRaw>[0]} */ asked) => {
    const rows = await queryRaw(asked);
    rows.columnTypes = rows.columnTypes.map((type, index) =>
      charColumns.has(rows.columnNames[index] ?? "") ? ColumnTypeEnum.Character : type,
    );
    return rows;
  };
  return adapter;
}
