import { defineConfig } from "prisma/config";

export default defineConfig({
  schema: "prisma/schema.prisma",
  migrations: { path: "prisma/migrations" },
  // Generating the client needs no database; Prisma's other commands take the one that is named.
  datasource: { url: process.env.DATABASE_URL ?? "" },
});
