import pg from "pg";

/** A table with its rows as JSON text, as Postgres wrote it: nothing of it is read as a number or a date on the way. */
interface DumpedTable {
  readonly name: string;
  readonly rows: readonly string[];
}

/** What a logical dump holds: every row of every table, and where every sequence stands. */
export interface Dump {
  readonly tables: readonly DumpedTable[];
  readonly sequences: readonly { readonly name: string; readonly last: string; readonly isCalled: boolean }[];
}

async function connected<T>(url: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

/**
 * A logical dump of all tables of ours, as one moment has them. The server that comes with the product has no pg_dump;
 * this does what `pg_dump --data-only` does.
 */
export function dumpDatabase(url: string): Promise<Dump> {
  return connected(url, async (client) => {
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    const tables = await client.query<{ name: string }>(
      `SELECT tablename AS name FROM pg_tables
       WHERE schemaname = 'public' AND tablename <> '_prisma_migrations' ORDER BY tablename`,
    );
    const dumped: DumpedTable[] = [];
    for (const { name } of tables.rows) {
      const { rows } = await client.query<{ row: string }>(
        `SELECT to_jsonb(t)::text AS row FROM "${name}" AS t`,
      );
      dumped.push({ name, rows: rows.map(({ row }) => row) });
    }
    const sequences = await client.query<{ name: string }>(
      `SELECT sequencename AS name FROM pg_sequences WHERE schemaname = 'public' ORDER BY sequencename`,
    );
    const stands: { name: string; last: string; isCalled: boolean }[] = [];
    for (const { name } of sequences.rows) {
      const { rows } = await client.query<{ last: string; called: boolean }>(
        `SELECT last_value::text AS last, is_called AS called FROM "${name}"`,
      );
      if (rows[0]) stands.push({ name, last: rows[0].last, isCalled: rows[0].called });
    }
    await client.query("COMMIT");
    return { tables: dumped, sequences: stands };
  });
}

/**
 * Puts a dump into a migrated, empty database, in one transaction. References and triggers are not asked on the way, as
 * `pg_restore --disable-triggers` does it; the references are looked at afterwards.
 *
 * @throws Error if a row refers to one that is not there.
 */
export function restoreDump(url: string, { tables, sequences }: Dump): Promise<void> {
  return connected(url, async (client) => {
    await client.query("BEGIN");
    await client.query("SET LOCAL session_replication_role = replica");
    for (const { name, rows } of tables) {
      for (let start = 0; start < rows.length; start += 500) {
        const part = `[${rows.slice(start, start + 500).join(",")}]`;
        await client.query(
          `INSERT INTO "${name}" SELECT * FROM jsonb_populate_recordset(NULL::"${name}", $1::jsonb)`,
          [part],
        );
      }
    }
    for (const { name, last, isCalled } of sequences)
      await client.query("SELECT setval($1::regclass, $2::bigint, $3)", [`"${name}"`, last, isCalled]);
    await client.query("COMMIT");
    await checkReferences(client);
  });
}

/** What the database would have refused had it been asked. */
async function checkReferences(client: pg.Client): Promise<void> {
  const { rows: keys } = await client.query<{
    name: string;
    from: string;
    to: string;
    own: string[];
    theirs: string[];
  }>(
    `SELECT conname AS name, conrelid::regclass::text AS "from", confrelid::regclass::text AS "to",
       (SELECT array_agg(quote_ident(attname)::text ORDER BY place) FROM unnest(conkey) WITH ORDINALITY AS k(number, place)
         JOIN pg_attribute ON attrelid = conrelid AND attnum = number) AS own,
       (SELECT array_agg(quote_ident(attname)::text ORDER BY place) FROM unnest(confkey) WITH ORDINALITY AS k(number, place)
         JOIN pg_attribute ON attrelid = confrelid AND attnum = number) AS theirs
     FROM pg_constraint WHERE contype = 'f' AND connamespace = 'public'::regnamespace`,
  );
  for (const { name, from, to, own, theirs } of keys) {
    const isThere = own.map((column, index) => `a.${column} = b.${theirs[index]}`).join(" AND ");
    const isSaid = own.map((column) => `a.${column} IS NOT NULL`).join(" AND ");
    const { rows } = await client.query(
      `SELECT 1 FROM ${from} AS a WHERE ${isSaid} AND NOT EXISTS (SELECT 1 FROM ${to} AS b WHERE ${isThere}) LIMIT 1`,
    );
    if (rows.length > 0) throw new Error(`${name}: a row refers to one that is not there`);
  }
}
